//! The letters used, as a part of the font, with what they mean.

use std::collections::BTreeMap;

use pdf_writer::Chunk;
use pdf_writer::Filter;
use pdf_writer::Finish;
use pdf_writer::Name;
use pdf_writer::Rect;
use pdf_writer::Ref;
use pdf_writer::Str;
use pdf_writer::types::CidFontType;
use pdf_writer::types::FontFlags;
use pdf_writer::types::SystemInfo;
use pdf_writer::types::UnicodeCmap;
use subsetter::GlyphRemapper;

use super::file::compressed;
use crate::formats::FormatError;
use crate::formats::font;
use crate::formats::font::GlyphId;

/// The name of the font in the file; six letters and a plus mark a part of a font.
const NAME: Name<'static> = Name(b"KERFWI+DejaVuSansCondensed");

/// Glyphs are numbered as in the part of the font, with no further meaning.
const NUMBERING: SystemInfo<'static> = SystemInfo {
    registry: Str(b"Adobe"),
    ordering: Str(b"Identity"),
    supplement: 0,
};

/// Collects the letters used while drawing, and writes the font in the end.
#[derive(Default)]
pub(super) struct Letters {
    remapper: GlyphRemapper,
    /// By the number in the file: the glyph in the font, and the first character it stood for.
    used: BTreeMap<u16, (GlyphId, char)>,
}

/// The five objects of a font.
pub(super) struct FontReferences {
    pub(super) font: Ref,
    pub(super) descendant: Ref,
    pub(super) descriptor: Ref,
    pub(super) program: Ref,
    pub(super) characters: Ref,
}

impl Letters {
    pub(super) fn is_empty(&self) -> bool {
        self.used.is_empty()
    }

    /// The words as numbers of glyphs, two bytes each.
    pub(super) fn encode(&mut self, content: &str) -> Vec<u8> {
        let mut bytes = Vec::new();
        for (glyph, character) in font::glyphs(content) {
            let number = self.remapper.remap(glyph.0);
            self.used.entry(number).or_insert((glyph, character));
            bytes.extend(number.to_be_bytes());
        }
        bytes
    }

    /// Writes the font.
    pub(super) fn write(
        &self,
        chunk: &mut Chunk,
        references: &FontReferences,
    ) -> Result<(), FormatError> {
        let program = subsetter::subset(font::FILE, 0, &self.remapper).map_err(|error| {
            FormatError::Letters {
                reason: error.to_string(),
            }
        })?;
        chunk
            .type0_font(references.font)
            .base_font(NAME)
            .encoding_predefined(Name(b"Identity-H"))
            .descendant_font(references.descendant)
            .to_unicode(references.characters);
        self.write_descendant(chunk, references);
        write_descriptor(chunk, references);
        let packed = compressed(&program);
        let mut stream = chunk.stream(references.program, &packed);
        stream.filter(Filter::FlateDecode);
        stream.pair(Name(b"Length1"), i32::try_from(program.len()).unwrap_or(0));
        stream.finish();
        self.write_characters(chunk, references);
        Ok(())
    }

    fn write_descendant(&self, chunk: &mut Chunk, references: &FontReferences) {
        let mut descendant = chunk.cid_font(references.descendant);
        descendant
            .subtype(CidFontType::Type2)
            .base_font(NAME)
            .system_info(NUMBERING)
            .font_descriptor(references.descriptor)
            .cid_to_gid_map_predefined(Name(b"Identity"))
            .default_width(0.0);
        let mut widths = descendant.widths();
        for (&number, &(glyph, _)) in &self.used {
            widths.consecutive(number, [thousandths(font::advance(glyph))]);
        }
    }

    fn write_characters(&self, chunk: &mut Chunk, references: &FontReferences) {
        let mut map: UnicodeCmap<u16> = UnicodeCmap::new(Name(b"Characters"), NUMBERING);
        for (&number, &(_, character)) in &self.used {
            map.pair(number, character);
        }
        let packed = compressed(map.finish().as_slice());
        let mut stream = chunk.cmap(references.characters, &packed);
        stream
            .name(Name(b"Characters"))
            .system_info(NUMBERING)
            .filter(Filter::FlateDecode);
    }
}

fn write_descriptor(chunk: &mut Chunk, references: &FontReferences) {
    let face = font::face();
    let per_em = |units: i16| thousandths(f64::from(units) / font::units_per_em());
    let whole = face.global_bounding_box();
    let bounds = Rect::new(
        per_em(whole.x_min),
        per_em(whole.y_min),
        per_em(whole.x_max),
        per_em(whole.y_max),
    );
    chunk
        .font_descriptor(references.descriptor)
        .name(NAME)
        .flags(FontFlags::SYMBOLIC)
        .bbox(bounds)
        .italic_angle(0.0)
        .ascent(thousandths(font::ascent(1.0)))
        .descent(-thousandths(font::descent(1.0)))
        .cap_height(thousandths(font::capital_height(1.0)))
        // width of an upright stem: not in the font file, only used to choose a stand-in
        .stem_v(80.0)
        .font_file2(references.program);
}

fn thousandths(share: f64) -> f32 {
    super::drawing::single(share * 1000.0)
}
