//! Words of a file: editions by name, names with their escapes.

/// The edition of a value of `$ACADVER` (DXF Reference, HEADER section).
pub(super) fn edition(code: &str) -> String {
    let name = match code {
        "AC1006" => "R10",
        "AC1009" => "R12",
        "AC1012" => "R13",
        "AC1014" => "R14",
        "AC1015" => "R2000",
        "AC1018" => "R2004",
        "AC1021" => "R2007",
        "AC1024" => "R2010",
        "AC1027" => "R2013",
        "AC1032" => "R2018",
        _ => return code.chars().filter(|c| !c.is_control()).take(20).collect(),
    };
    name.to_owned()
}

/// A name with its `\U+XXXX` as letters, without control characters, at most 255 letters long.
pub(super) fn decoded(name: &str) -> String {
    let mut text = String::new();
    let mut rest = name.trim();
    while let Some((before, after)) = rest.split_once("\\U+") {
        text.push_str(before);
        let digits = after.get(..4);
        let letter = digits
            .and_then(|digits| u32::from_str_radix(digits, 16).ok())
            .and_then(char::from_u32);
        if let Some(letter) = letter {
            text.push(letter);
            rest = after.get(4..).unwrap_or_default();
        } else {
            text.push_str("\\U+");
            rest = after;
        }
    }
    text.push_str(rest);
    text.chars()
        .filter(|letter| !letter.is_control())
        .take(255)
        .collect()
}
