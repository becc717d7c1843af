//! Short names of faults, for programs and look-ups.

/// Declares the short names of a fault: lower case, words joined by hyphens; and their list.
macro_rules! named {
    ($fault:ident: $($variant:ident => $name:literal),+ $(,)?) => {
        impl $fault {
            /// Every short name, for look-ups and tests.
            pub const NAMES: &'static [&'static str] = &[$($name),+];

            /// A short name for programs and look-ups.
            pub fn name(&self) -> &'static str {
                match self {
                    $(Self::$variant { .. } => $name,)+
                }
            }
        }
    };
}
