//! Rules a shop applies to a file before it cuts it; one file a rule.
