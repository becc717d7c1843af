//! Files are written whole or not at all, and nobody else's file is replaced unasked.

use std::fs;
use std::io::Write;
use std::path::Path;
use std::path::PathBuf;

/// The word by which the tool knows its own files, in whatever case; every format carries it somewhere.
const OWN_MARK: &[u8] = b"kerfwise";

/// Whether files that the tool did not write may be replaced.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Replace {
    /// Only its own.
    OwnOnly,
    /// Any.
    Any,
}

/// Why a file could not be read or written.
#[derive(Debug, thiserror::Error)]
pub(crate) enum FileError {
    /// It cannot be read.
    #[error("cannot read {}: {source}", path.display())]
    Read {
        path: PathBuf,
        source: std::io::Error,
    },
    /// It is not text.
    #[error("{} is not text (UTF-8): is it really a design file?", path.display())]
    NotText { path: PathBuf },
    /// It is larger than any design file.
    #[error("{} has {size} bytes; a design file has at most {most}", path.display())]
    TooLarge { path: PathBuf, size: u64, most: u64 },
    /// It is larger than any drawing that is read.
    #[error("{} has {size} bytes; a drawing has at most {most}", path.display())]
    DrawingTooLarge { path: PathBuf, size: u64, most: u64 },
    /// It cannot be written.
    #[error("cannot write {}: {source}", path.display())]
    Write {
        path: PathBuf,
        source: std::io::Error,
    },
    /// Somebody else's file stands in the way.
    #[error(
        "{} is there already and was not written by this tool; give another name with --out, or add \
         --replace",
        path.display()
    )]
    NotOurs { path: PathBuf },
}

/// Largest design file read, in bytes.
const LARGEST_DESIGN: u64 = 16 * 1024 * 1024;

/// Reads a design file.
pub(crate) fn read_text(path: &Path) -> Result<String, FileError> {
    let refused = |source| FileError::Read {
        path: path.to_owned(),
        source,
    };
    let size = fs::metadata(path).map_err(refused)?.len();
    if size > LARGEST_DESIGN {
        return Err(FileError::TooLarge {
            path: path.to_owned(),
            size,
            most: LARGEST_DESIGN,
        });
    }
    let bytes = fs::read(path).map_err(refused)?;
    String::from_utf8(bytes).map_err(|_| FileError::NotText {
        path: path.to_owned(),
    })
}

/// Largest drawing read, in bytes: as much as the library takes.
const LARGEST_DRAWING: u64 = 128 * 1024 * 1024;

/// Reads a drawing.
pub(crate) fn read_drawing(path: &Path) -> Result<Vec<u8>, FileError> {
    let refused = |source| FileError::Read {
        path: path.to_owned(),
        source,
    };
    let size = fs::metadata(path).map_err(refused)?.len();
    if size > LARGEST_DRAWING {
        return Err(FileError::DrawingTooLarge {
            path: path.to_owned(),
            size,
            most: LARGEST_DRAWING,
        });
    }
    fs::read(path).map_err(refused)
}

/// Refuses to go on when somebody else's file stands at `path`.
pub(crate) fn check_free(path: &Path, replace: Replace) -> Result<(), FileError> {
    if replace == Replace::Any || !path.exists() {
        return Ok(());
    }
    let bytes = fs::read(path).map_err(|source| FileError::Read {
        path: path.to_owned(),
        source,
    })?;
    let ours = bytes
        .windows(OWN_MARK.len())
        .any(|window| window.eq_ignore_ascii_case(OWN_MARK));
    if ours {
        Ok(())
    } else {
        Err(FileError::NotOurs {
            path: path.to_owned(),
        })
    }
}

/// Whether `--out` means a folder: one that is there, or a path that ends in a separator.
pub(crate) fn is_folder(out: &Path) -> bool {
    out.is_dir() || out.as_os_str().to_string_lossy().ends_with(['/', '\\'])
}

/// Writes a file whole or not at all: into a new file beside it, which then takes its name.
pub(crate) fn write(path: &Path, bytes: &[u8], replace: Replace) -> Result<(), FileError> {
    check_free(path, replace)?;
    let refused = |source| FileError::Write {
        path: path.to_owned(),
        source,
    };
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty());
    if let Some(folder) = folder {
        fs::create_dir_all(folder).map_err(refused)?;
    }
    let mut beside = path.file_name().unwrap_or_default().to_owned();
    beside.push(format!(".{}.part", std::process::id()));
    let beside = path.with_file_name(beside);
    let written = fs::File::create(&beside)
        .and_then(|mut file| file.write_all(bytes).and_then(|()| file.sync_all()))
        .and_then(|()| fs::rename(&beside, path));
    written.map_err(|source| {
        // the half-written file is of no use to anyone; that it cannot be removed changes nothing
        let _ = fs::remove_file(&beside);
        refused(source)
    })
}
