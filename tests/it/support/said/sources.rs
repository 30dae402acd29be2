//! Texts of the Rust sources: `say!`, `msg!`, and the sentences of errors that reach the glass.

use proc_macro2::{Delimiter, Group, Literal, TokenStream, TokenTree};

use super::holes::named;
use super::{Text, files, has_words};

/// Whose errors reach the glass. The faults of a recipe's page are for the terminal.
const SPEAKING: [&str; 8] = [
    "craft",
    "sheet",
    "machine",
    "journal",
    "keeper",
    "shelf",
    "shell/disk",
    "shell/sound",
];

/// All of them.
///
/// # Panics
/// If one can't be said: with braces that are no hole, or a `say!` whose text isn't plain.
pub(super) fn texts() -> Vec<Text> {
    let mut found = Vec::new();
    for (path, source) in files("src", "rs") {
        let tokens: TokenStream = source.parse().unwrap_or_else(|fault| panic!("{path}: {fault}"));
        for text in of(&path, tokens) {
            found.push(text.unwrap_or_else(|fault| panic!("{path}: {fault}")));
        }
    }
    found
}

fn of(path: &str, tokens: TokenStream) -> Vec<Result<Text, String>> {
    let errors_speak = SPEAKING
        .iter()
        .any(|room| path.starts_with(&format!("src/{room}/")));
    let mut seen = Seen {
        path,
        errors_speak,
        found: Vec::new(),
    };
    seen.walk(tokens);
    seen.found
}

struct Seen<'a> {
    path: &'a str,
    errors_speak: bool,
    found: Vec<Result<Text, String>>,
}

impl Seen<'_> {
    fn walk(&mut self, tokens: TokenStream) {
        let tokens: Vec<TokenTree> = tokens.into_iter().collect();
        let mut is_test = false;
        for (index, token) in tokens.iter().enumerate() {
            let TokenTree::Group(group) = token else { continue };
            let before = |back: usize| {
                index
                    .checked_sub(back)
                    .and_then(|at| tokens.get(at))
                    .map_or_else(String::new, ToString::to_string)
            };
            if is_test && group.delimiter() == Delimiter::Brace {
                is_test = false;
                continue;
            }
            if before(1) == "#" && group.delimiter() == Delimiter::Bracket {
                is_test |= group.stream().to_string().replace(' ', "") == "cfg(test)";
                self.attribute(group);
            } else if before(1) == "!" && before(2) == "say" {
                self.said(group);
            } else if before(1) == "!" && before(2) == "msg" {
                self.marked(group);
            }
            self.walk(group.stream());
        }
    }

    fn attribute(&mut self, group: &Group) {
        let tokens: Vec<TokenTree> = group.stream().into_iter().collect();
        let [TokenTree::Ident(name), TokenTree::Group(inside), ..] = tokens.as_slice() else {
            return;
        };
        if name != "error" || !self.errors_speak {
            return;
        }
        if let Some(text) = first_text(inside.stream()) {
            self.finished(&text);
        }
    }

    /// `msg!("text")` is said as it stands, `msg!("{hole:.1} text", hole = ..)` comes finished.
    fn marked(&mut self, group: &Group) {
        let Some(text) = first_text(group.stream()) else {
            self.fault(group, "no text");
            return;
        };
        // A comma behind the text alone makes no arguments.
        let has_arguments = group.stream().into_iter().count() > 2;
        if has_arguments {
            self.finished(&text);
        } else if text.contains(['{', '}']) {
            self.fault(group, "braces without arguments");
        } else {
            self.note(None, text, false);
        }
    }

    /// `say!(locale, "text", ..)` or `say!(locale, "context" => "text", ..)`.
    fn said(&mut self, group: &Group) {
        let mut tokens = group.stream().into_iter();
        tokens.find(|token| token.to_string() == ",");
        let Some(first) = tokens.next().and_then(text_of) else {
            self.fault(group, "no text behind the locale");
            return;
        };
        let rest: Vec<TokenTree> = tokens.collect();
        let (context, text) = match rest.as_slice() {
            [eq, gt, text, ..] if eq.to_string() == "=" && gt.to_string() == ">" => {
                match text_of(text.clone()) {
                    Some(text) => (Some(first), text),
                    None => {
                        self.fault(group, "no text behind the context");
                        return;
                    }
                }
            }
            _ => (None, first),
        };
        match named(&text) {
            Ok(plain) if plain == text => self.note(context, text, false),
            Ok(_) => self.fault(group, "a hole of say! has a name and nothing else"),
            Err(fault) => self.fault(group, &fault),
        }
    }

    fn finished(&mut self, text: &str) {
        match named(text) {
            Ok(text) => {
                let has_holes = text.contains('{');
                self.note(None, text, has_holes);
            }
            Err(fault) => self.found.push(Err(format!("{text}: {fault}"))),
        }
    }

    fn note(&mut self, context: Option<String>, english: String, is_read_back: bool) {
        if has_words(&english) {
            self.found.push(Ok(Text {
                context,
                english,
                place: self.path.to_owned(),
                is_read_back,
            }));
        }
    }

    fn fault(&mut self, group: &Group, what: &str) {
        self.found.push(Err(format!("{}: {what}", group.stream())));
    }
}

fn first_text(tokens: TokenStream) -> Option<String> {
    tokens.into_iter().next().and_then(text_of)
}

fn text_of(token: TokenTree) -> Option<String> {
    match token {
        TokenTree::Literal(literal) => string(&literal),
        // What a macro was given comes in a group without brackets.
        TokenTree::Group(group) if group.delimiter() == Delimiter::None => first_text(group.stream()),
        _ => None,
    }
}

fn string(literal: &Literal) -> Option<String> {
    syn::parse_str::<syn::LitStr>(&literal.to_string())
        .ok()
        .map(|text| text.value())
}

#[test]
fn texts_are_seen_wherever_they_are_said() {
    let source = r##"
        /// say!(locale, "not this")
        #[error("{} of {name:?} fell", .0.name())]
        #[error("{0}")]
        fn f() {
            say!(locale, "one {hole}", hole = msg!("two"));
            self.x(say!(self.a.locale, "of goods" => "Dry"));
            msg!("three {x:.1} C and \
                 {}", 4, x = 5);
            let other = "not that";
        }
        #[cfg(test)]
        mod tests { fn g() { msg!("nor this") } }
        const A: &str = msg!("four",);
    "##;
    let seen: Vec<_> = of("src/sheet/x.rs", source.parse().unwrap())
        .into_iter()
        .map(|text| {
            let text = text.unwrap();
            (text.context.unwrap_or_default(), text.english, text.is_read_back)
        })
        .collect();
    let expected = [
        ("", "{0} of {name} fell", true),
        ("", "one {hole}", false),
        ("", "two", false),
        ("of goods", "Dry", false),
        ("", "three {x} C and {0}", true),
        ("", "four", false),
    ];

    assert_eq!(
        seen,
        expected.map(|(context, text, back)| (context.to_owned(), text.to_owned(), back))
    );
}

#[test]
fn what_cant_be_said_is_a_fault() {
    for source in [
        r#"msg!("a {hole}")"#,
        r#"msg!(text)"#,
        r#"say!(locale, "{a:.1}", a = 1)"#,
        r#"say!(locale, text)"#,
        r#"msg!("{{{a}", a = 1)"#,
    ] {
        let seen = of("src/view/x.rs", source.parse().unwrap());
        assert!(seen.iter().any(Result::is_err), "{source}");
    }
}
