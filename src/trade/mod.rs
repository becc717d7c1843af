//! Data of the trade, each value with its mark: read, remembered, common practice.
