//! What can be measured on a part: area, weight, widths, limits.
