//! The holes of a text.

/// One hole: its name, and the unit that follows it.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Hole {
    /// Its name, or its number.
    pub name: String,
    /// The unit a number in it is changed from, as it is written in English.
    pub unit: Option<&'static str>,
}

/// The holes of a text, in their order.
pub fn holes(text: &str) -> Vec<Hole> {
    text.split('{')
        .skip(1)
        .map(|part| {
            let (name, after) = part.split_once('}').expect("a hole is closed");
            Hole {
                name: name.to_owned(),
                unit: unit_of(after),
            }
        })
        .collect()
}

/// The unit a text begins with; a translator may write the sign of degrees.
fn unit_of(after: &str) -> Option<&'static str> {
    const UNITS: [(&str, &str); 7] = [
        (" \u{b0}C", "C"),
        (" C", "C"),
        (" cm", "cm"),
        (" g", "g"),
        (" L", "L"),
        (" mL", "mL"),
        (" m", "m"),
    ];
    UNITS.iter().find_map(|(written, unit)| {
        let rest = after.strip_prefix(written)?;
        let ends = !rest.starts_with(|next: char| next.is_alphanumeric() || next == '/');
        ends.then_some(*unit)
    })
}

/// A text as `format!` takes it, with its holes named: how a number is printed is dropped, and a hole without a name
/// gets its number.
pub(super) fn named(format: &str) -> Result<String, String> {
    let mut out = String::new();
    let mut next = 0_usize;
    let mut rest = format;
    while let Some((before, from)) = rest.split_once('{') {
        let (inside, after) = from.split_once('}').ok_or("a hole isn't closed")?;
        if before.contains('}') || inside.contains('{') || inside.is_empty() && after.starts_with('}') {
            return Err("braces that are no hole".to_owned());
        }
        out.push_str(before);
        let name = inside.split(':').next().unwrap_or_default();
        if name.is_empty() {
            out.push_str(&format!("{{{next}}}"));
            next += 1;
        } else {
            out.push_str(&format!("{{{name}}}"));
        }
        rest = after;
    }
    if rest.contains('}') {
        return Err("braces that are no hole".to_owned());
    }
    out.push_str(rest);
    Ok(out)
}

#[test]
fn holes_are_named_and_what_is_no_hole_is_refused() {
    assert_eq!(
        named("{:.2} g of {name} in {1:?} {}").unwrap(),
        "{0} g of {name} in {1} {1}"
    );
    assert_eq!(named("no hole").unwrap(), "no hole");
    assert!(named("a {{brace}}").is_err());
    assert!(named("a } brace").is_err());
    assert!(named("a { brace").is_err());
}

#[test]
fn a_unit_is_seen_behind_its_hole() {
    let units: Vec<_> = holes("{a} C, {b} \u{b0}C, {c} C/min, {d} g of {e} Luft, {f} L")
        .into_iter()
        .map(|hole| hole.unit)
        .collect();

    assert_eq!(units, [Some("C"), Some("C"), None, Some("g"), None, Some("L")]);
}
