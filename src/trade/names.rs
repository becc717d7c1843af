//! Finding a thing by what people call it.

/// Similarity (Jaro and Winkler, 0 … 1) from which a name is offered: catches two letters exchanged
/// or one missing, not another word.
const SIMILAR: f64 = 0.82;

/// At most this many names are offered.
const OFFERED: usize = 3;

/// The words of a name in one spelling, sorted: "Steel, galvanized" and "galvanised steel" are one.
pub(super) fn normalized(name: &str) -> String {
    let plain: String = name
        .chars()
        .flat_map(char::to_lowercase)
        .map(|letter| match letter {
            'é' | 'è' => 'e',
            letter if letter.is_alphanumeric() => letter,
            _ => ' ',
        })
        .collect();
    let mut words: Vec<&str> = plain
        .split_whitespace()
        .map(|word| match word {
            "aluminum" | "alu" => "aluminium",
            "galvanized" | "galv" => "galvanised",
            "ply" => "plywood",
            "caliper" | "calipers" | "callipers" => "calliper",
            "ruler" => "rule",
            word => word,
        })
        .collect();
    words.sort_unstable();
    words.join(" ")
}

/// The names out of `known` (each with its own spellings) nearest to what was asked, the nearest
/// first.
pub(super) fn nearest<'n, 'a>(
    asked: &str,
    known: impl Iterator<Item = (&'n str, &'a [&'a str])>,
) -> Vec<&'n str> {
    let asked = normalized(asked);
    let mut ranked: Vec<(f64, &'n str)> = known
        .map(|(name, aliases)| {
            let spellings = std::iter::once(name).chain(aliases.iter().copied());
            let best = spellings
                .map(|spelling| similarity(&asked, &normalized(spelling)))
                .fold(0.0, f64::max);
            (best, name)
        })
        .filter(|(similarity, _)| *similarity >= SIMILAR)
        .collect();
    ranked.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(b.1)));
    ranked.truncate(OFFERED);
    ranked.into_iter().map(|(_, name)| name).collect()
}

/// As letters go, or 0.9 and more when one holds all words of the other.
fn similarity(asked: &str, spelling: &str) -> f64 {
    let letters = strsim::jaro_winkler(asked, spelling);
    let holds = |whole: &str, part: &str| {
        !part.is_empty()
            && part
                .split(' ')
                .all(|word| whole.split(' ').any(|other| other == word))
    };
    if holds(asked, spelling) || holds(spelling, asked) {
        letters.max(0.9)
    } else {
        letters
    }
}

/// The place of the thing called so, by its name or another spelling of it.
pub(super) fn place<'a>(
    asked: &str,
    mut known: impl Iterator<Item = (&'a str, &'a [&'a str])>,
) -> Option<usize> {
    let asked = normalized(asked);
    if asked.is_empty() {
        return None;
    }
    known.position(|(name, aliases)| {
        std::iter::once(name)
            .chain(aliases.iter().copied())
            .any(|spelling| normalized(spelling) == asked)
    })
}
