//! Any bytes as a drawing: read, inspected, mended.
#![no_main]

use kerfwise::documents::inspection::InspectOptions;
use kerfwise::documents::inspection::MendOptions;
use kerfwise::documents::inspection::inspect;
use kerfwise::documents::inspection::mend;
use kerfwise::formats::incoming::ReadOptions;
use kerfwise::formats::incoming::read;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    if let Ok(drawing) = read(bytes, &ReadOptions::default()) {
        let inspection = inspect(drawing, InspectOptions::default());
        let _ = mend(&inspection, &MendOptions { within: 0.01 });
    }
});
