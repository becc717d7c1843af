//! Where two segments meet.
