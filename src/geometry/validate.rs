//! Whether contours cross themselves or one another.
