//! Chains of short chords back to lines and arcs.
