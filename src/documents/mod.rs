//! What a person holds: drawing, pattern, cut file, marking-out sheet, order sheet, job folder.
