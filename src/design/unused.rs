//! Dimensions that nothing uses: what is drawn does not follow them.

use super::dimensions::Dimension;
use super::error::DesignError;
use super::error::DimensionFault;
use super::file::DimensionEntry;
use super::load::Design;

impl Design {
    /// A notice for each dimension that nothing in the file uses, in its order.
    ///
    /// A dimension is used by any expression that names it, whichever part, plate, fit or other dimension
    /// it stands in; by its own `measure`; by the `reference` that it is held against; and, if it is worked
    /// out from others, by its own limits. A file without parts and fits has yet to use what it has.
    pub fn unused(&self) -> Vec<DesignError> {
        if self.file.part.is_empty() && self.file.fit.is_empty() {
            return Vec::new();
        }
        let unused = self.dimensions.iter().filter(|one| !self.is_used(one));
        let notice = |dimension: &Dimension| {
            let name = dimension.name.clone();
            DesignError::notice(DimensionFault::Unused { name }, dimension.place)
                .with_help("name it where it belongs, give it a `measure`, or take it out")
        };
        unused.map(notice).collect()
    }

    fn is_used(&self, dimension: &Dimension) -> bool {
        let entry = self.file.dims.get(&dimension.name);
        let is_reference = entry.is_some_and(|named| match &named.entry {
            DimensionEntry::Table(table) => table.value.reference.is_some(),
            DimensionEntry::Short(_) => false,
        });
        let is_limited_sum = !dimension.made_of.is_empty() && dimension.permitted.is_limited();
        self.file.used_names.contains(&dimension.name)
            || dimension.measure.is_some()
            || is_reference
            || is_limited_sum
    }
}

#[cfg(test)]
mod tests {
    use crate::design::Design;
    use crate::design::Source;

    /// What nothing uses in a file of two parts with these dimensions.
    fn unused(dims: &str) -> Vec<String> {
        let outline = |width: &str| {
            format!(
                "outline = [{{ corner = 'a', at = [0, 0] }}, {{ corner = 'b', at = ['{width}', 0] }}, \
                 {{ corner = 'c', at = [30, 30] }}]\n"
            )
        };
        let text = format!(
            "[dims]\none = 20\nother = 30\n{dims}[part.first]\n{}[part.second]\n{}",
            outline("one"),
            outline("other * 2")
        );
        let design = Design::load(&Source::new("x.toml", text.clone()), &[]).expect(&text);
        let notices = design.unused();
        notices.iter().map(ToString::to_string).collect()
    }

    #[test]
    fn a_dimension_that_no_part_uses_is_named() {
        let found = unused("camber = 31\n\"keel\" = { value = 60, note = 'camber at the keel' }\n");
        assert_eq!(found.len(), 2, "a note is no use: {found:?}");
        assert!(
            found.iter().any(|told| told.contains("`camber`")),
            "{found:?}"
        );
        assert!(
            found.iter().any(|told| told.contains("`keel`")),
            "{found:?}"
        );
    }

    #[test]
    fn every_kind_of_use_counts() {
        for dims in [
            "",
            // made into another that is limited itself
            "gap = 3\nall = { value = 'one + other + gap', max = 60 }\n",
            "again = { value = 50, tol = 1, reference = { of = 'one + other' } }\n",
            "b = { value = 20, part = 'first', measure = { position = { of = 'b', way = 'along' } } }\n",
            // in a limit of another dimension
            "room = 2\nlow = { value = '2 * one', min = '40 - room' }\n",
        ] {
            assert_eq!(unused(dims), [""; 0], "{dims}");
        }
    }

    #[test]
    fn part_of_a_name_is_no_use() {
        assert_eq!(unused("oth = 4\n").len(), 1, "`other` is another name");
    }
}
