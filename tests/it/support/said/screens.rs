//! Texts of the screens: `@tr("...")`. Previews are for us and stay English.

use super::{Text, files, has_words};

/// All of them.
///
/// # Panics
/// If one isn't plain: with a context, a plural, or an escape that isn't known here.
pub(super) fn texts() -> Vec<Text> {
    files("ui", "slint")
        .into_iter()
        .filter(|(path, _)| !path.starts_with("ui/previews/"))
        .flat_map(|(path, source)| of(&path, &source).unwrap_or_else(|fault| panic!("{path}: {fault}")))
        .collect()
}

fn of(path: &str, source: &str) -> Result<Vec<Text>, String> {
    let code: String = source
        .lines()
        .map(|line| match line.trim_start().starts_with("//") {
            true => "\n".to_owned(),
            false => format!("{line}\n"),
        })
        .collect();
    let mut found = Vec::new();
    for (at, sign) in code.match_indices("@tr(") {
        let rest = code[at + sign.len()..].trim_start();
        let (english, after) =
            quoted(rest).ok_or_else(|| format!("no plain text in {}", first_line(rest)))?;
        if !after.trim_start().starts_with([',', ')']) {
            return Err(format!(
                "more than a text and what fills it: {}",
                first_line(rest)
            ));
        }
        if has_words(&english) {
            found.push(Text {
                context: None,
                english,
                place: path.to_owned(),
                is_read_back: false,
            });
        }
    }
    Ok(found)
}

fn first_line(text: &str) -> &str {
    text.lines().next().unwrap_or_default()
}

/// A text in quotes, and what follows it.
fn quoted(text: &str) -> Option<(String, &str)> {
    let mut letters = text.strip_prefix('"')?.chars();
    let mut said = String::new();
    loop {
        match letters.next()? {
            '"' => return Some((said, letters.as_str())),
            '\\' => said.push(match letters.next()? {
                'n' => '\n',
                same @ ('"' | '\\') => same,
                'u' => {
                    let (digits, rest) = letters.as_str().strip_prefix('{')?.split_once('}')?;
                    letters = rest.chars();
                    char::from_u32(u32::from_str_radix(digits, 16).ok()?)?
                }
                _ => return None,
            }),
            letter => said.push(letter),
        }
    }
}

#[test]
fn texts_of_screens_are_seen() {
    let seen = |source| {
        let texts = of("ui/x.slint", source)?;
        Ok::<_, String>(texts.into_iter().map(|text| text.english).collect::<Vec<_>>())
    };

    assert_eq!(
        seen("text: @tr(\"a \\\"b\\\" \\u{b0} {}\", root.x) + @tr(\"c\");\n// @tr(\"d\")\n@tr(\"{}: {}\", a, b)").unwrap(),
        ["a \"b\" \u{b0} {}", "c"]
    );
    assert!(seen("@tr(\"context\" => \"text\")").is_err());
    assert!(seen("@tr(\"one\" | \"{n} many\" % n)").is_err());
    assert!(seen("@tr(root.text)").is_err());
}
