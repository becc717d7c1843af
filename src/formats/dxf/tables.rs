//! What a DXF file has around its entities: header, tables, blocks, root dictionary.

use super::tag::Handle;
use super::tag::Tags;
use super::write::DxfOptions;
use super::write::DxfVersion;
use crate::geometry::LengthUnit;
use crate::geometry::Rect;
use crate::sheet::Layer;

const VIEW_PORTS: Handle = Handle(0x1);
const LINE_TYPES: Handle = Handle(0x2);
const LAYERS: Handle = Handle(0x3);
const STYLES: Handle = Handle(0x4);
const VIEWS: Handle = Handle(0x5);
const COORDINATE_SYSTEMS: Handle = Handle(0x6);
const APPLICATIONS: Handle = Handle(0x7);
const DIMENSION_STYLES: Handle = Handle(0x8);
const BLOCK_RECORDS: Handle = Handle(0x9);
const VIEW_PORT: Handle = Handle(0xA);
const BY_BLOCK: Handle = Handle(0xB);
const BY_LAYER: Handle = Handle(0xC);
const CONTINUOUS: Handle = Handle(0xD);
const STYLE: Handle = Handle(0xE);
const APPLICATION: Handle = Handle(0xF);
const DIMENSION_STYLE: Handle = Handle(0x10);
/// The block record that owns every entity.
pub(super) const MODEL_SPACE: Handle = Handle(0x11);
const PAPER_SPACE: Handle = Handle(0x12);
const ROOT: Handle = Handle(0x17);
const GROUPS: Handle = Handle(0x18);
const NOBODY: Handle = Handle(0);
/// Layer 0 and those in use, one after another.
const FIRST_LAYER: usize = 0x20;
/// Entities have this handle and those after it.
pub(super) const FIRST_FREE_HANDLE: usize = 0x40;

/// All but the entities.
pub(super) struct Skeleton<'a> {
    pub(super) options: &'a DxfOptions,
    pub(super) layers: Vec<Layer>,
    pub(super) bounds: Option<Rect>,
    pub(super) next: usize,
}

impl Skeleton<'_> {
    fn is_old(&self) -> bool {
        self.options.version == DxfVersion::R12
    }

    pub(super) fn before_entities(&self, tags: &mut Tags) {
        self.header(tags);
        if !self.is_old() {
            section(tags, "CLASSES");
            tags.word(0, "ENDSEC");
        }
        section(tags, "TABLES");
        self.view_ports(tags);
        self.line_types(tags);
        self.layers(tags);
        self.styles(tags);
        if !self.is_old() {
            self.table(tags, "VIEW", VIEWS, 0);
            tags.word(0, "ENDTAB");
            self.table(tags, "UCS", COORDINATE_SYSTEMS, 0);
            tags.word(0, "ENDTAB");
            self.applications(tags);
            self.dimension_styles(tags);
            self.block_records(tags);
        }
        tags.word(0, "ENDSEC");
        section(tags, "BLOCKS");
        if !self.is_old() {
            block(tags, MODEL_SPACE, "*Model_Space", (0x13, 0x14));
            block(tags, PAPER_SPACE, "*Paper_Space", (0x15, 0x16));
        }
        tags.word(0, "ENDSEC");
        section(tags, "ENTITIES");
    }

    pub(super) fn after_entities(&self, tags: &mut Tags) {
        tags.word(0, "ENDSEC");
        if !self.is_old() {
            section(tags, "OBJECTS");
            dictionary(tags, ROOT, NOBODY);
            tags.word(3, "ACAD_GROUP");
            tags.handle(350, GROUPS);
            dictionary(tags, GROUPS, ROOT);
            tags.word(0, "ENDSEC");
        }
        tags.word(0, "EOF");
    }

    /// Bounds in the unit of the file.
    fn extent(&self) -> Rect {
        let unit = self.options.unit.millimetres();
        let bounds = self.bounds.unwrap_or_default();
        Rect::new(
            bounds.x0 / unit,
            bounds.y0 / unit,
            bounds.x1 / unit,
            bounds.y1 / unit,
        )
    }

    fn header(&self, tags: &mut Tags) {
        let extent = self.extent();
        section(tags, "HEADER");
        variable(tags, "$ACADVER");
        tags.word(1, self.options.version.code());
        if !self.is_old() {
            variable(tags, "$DWGCODEPAGE");
            tags.word(3, "ANSI_1252");
            variable(tags, "$HANDSEED");
            tags.handle(5, Handle(self.next));
            variable(tags, "$INSUNITS");
            tags.whole(70, unit_code(self.options.unit));
            variable(tags, "$MEASUREMENT");
            tags.whole(70, metric_code(self.options.unit));
        }
        variable(tags, "$EXTMIN");
        tags.point((10, 20, 30), extent.x0, extent.y0);
        variable(tags, "$EXTMAX");
        tags.point((10, 20, 30), extent.x1, extent.y1);
        // points are shown as small upright crosses
        variable(tags, "$PDMODE");
        tags.whole(70, 2);
        variable(tags, "$PDSIZE");
        tags.real(40, 3.0 / self.options.unit.millimetres());
        tags.word(0, "ENDSEC");
    }

    /// Head of a table.
    fn table(&self, tags: &mut Tags, name: &str, handle: Handle, entries: usize) {
        tags.word(0, "TABLE");
        tags.word(2, name);
        if !self.is_old() {
            tags.handle(5, handle);
            tags.handle(330, NOBODY);
            tags.word(100, "AcDbSymbolTable");
        }
        tags.whole(70, entries);
    }

    /// Head of an entry of a table, down to its name.
    fn entry(&self, tags: &mut Tags, entry: &Entry<'_>) {
        tags.word(0, entry.kind);
        if !self.is_old() {
            // the one exception of the format
            let code = if entry.kind == "DIMSTYLE" { 105 } else { 5 };
            tags.handle(code, entry.handle);
            tags.handle(330, entry.table);
            tags.word(100, "AcDbSymbolTableRecord");
            tags.word(100, entry.class);
        }
        tags.word(2, entry.name);
    }

    fn view_ports(&self, tags: &mut Tags) {
        let extent = self.extent();
        let centre = extent.center();
        // a twentieth of air around; never a view without a size
        let height = (extent.height().max(extent.width()) * 1.05).max(1.0);
        self.table(tags, "VPORT", VIEW_PORTS, 1);
        self.entry(
            tags,
            &Entry {
                kind: "VPORT",
                class: "AcDbViewportTableRecord",
                name: "*Active",
                handle: VIEW_PORT,
                table: VIEW_PORTS,
            },
        );
        tags.whole(70, 0);
        for (code, value) in [
            (10, 0.0),
            (20, 0.0),
            (11, 1.0),
            (21, 1.0),
            (12, centre.x),
            (22, centre.y),
            (13, 0.0),
            (23, 0.0),
            (14, 10.0),
            (24, 10.0),
            (15, 10.0),
            (25, 10.0),
            (16, 0.0),
            (26, 0.0),
            (36, 1.0),
            (17, 0.0),
            (27, 0.0),
            (37, 0.0),
            (40, height),
            (41, 1.5),
            (42, 50.0),
            (43, 0.0),
            (44, 0.0),
            (50, 0.0),
            (51, 0.0),
        ] {
            tags.real(code, value);
        }
        for (code, value) in [
            (71, 0),
            (72, 1000),
            (73, 1),
            (74, 3),
            (75, 0),
            (76, 0),
            (77, 0),
            (78, 0),
        ] {
            tags.whole(code, value);
        }
        tags.word(0, "ENDTAB");
    }

    fn line_types(&self, tags: &mut Tags) {
        let all = [
            ("ByBlock", BY_BLOCK, ""),
            ("ByLayer", BY_LAYER, ""),
            ("CONTINUOUS", CONTINUOUS, "Solid line"),
        ];
        // R12 knows the first two without being told
        let entries = if self.is_old() { &all[2..] } else { &all[..] };
        self.table(tags, "LTYPE", LINE_TYPES, entries.len());
        for &(name, handle, looks) in entries {
            self.entry(
                tags,
                &Entry {
                    kind: "LTYPE",
                    class: "AcDbLinetypeTableRecord",
                    name,
                    handle,
                    table: LINE_TYPES,
                },
            );
            tags.whole(70, 0);
            tags.word(3, looks);
            tags.whole(72, 65);
            tags.whole(73, 0);
            tags.real(40, 0.0);
        }
        tags.word(0, "ENDTAB");
    }

    fn layers(&self, tags: &mut Tags) {
        self.table(tags, "LAYER", LAYERS, self.layers.len() + 1);
        let names = std::iter::once("0").chain(self.layers.iter().map(|layer| layer.name()));
        for (place, name) in names.enumerate() {
            self.entry(
                tags,
                &Entry {
                    kind: "LAYER",
                    class: "AcDbLayerTableRecord",
                    name,
                    handle: Handle(FIRST_LAYER + place),
                    table: LAYERS,
                },
            );
            tags.whole(70, 0);
            tags.whole(62, 7);
            tags.word(6, "CONTINUOUS");
        }
        tags.word(0, "ENDTAB");
    }

    fn styles(&self, tags: &mut Tags) {
        self.table(tags, "STYLE", STYLES, 1);
        self.entry(
            tags,
            &Entry {
                kind: "STYLE",
                class: "AcDbTextStyleTableRecord",
                name: "STANDARD",
                handle: STYLE,
                table: STYLES,
            },
        );
        tags.whole(70, 0);
        tags.real(40, 0.0);
        tags.real(41, 1.0);
        tags.real(50, 0.0);
        tags.whole(71, 0);
        tags.real(42, 2.5 / self.options.unit.millimetres());
        tags.word(3, "txt");
        tags.word(4, "");
        tags.word(0, "ENDTAB");
    }

    fn applications(&self, tags: &mut Tags) {
        self.table(tags, "APPID", APPLICATIONS, 1);
        self.entry(
            tags,
            &Entry {
                kind: "APPID",
                class: "AcDbRegAppTableRecord",
                name: "ACAD",
                handle: APPLICATION,
                table: APPLICATIONS,
            },
        );
        tags.whole(70, 0);
        tags.word(0, "ENDTAB");
    }

    fn dimension_styles(&self, tags: &mut Tags) {
        self.table(tags, "DIMSTYLE", DIMENSION_STYLES, 1);
        tags.word(100, "AcDbDimStyleTable");
        self.entry(
            tags,
            &Entry {
                kind: "DIMSTYLE",
                class: "AcDbDimStyleTableRecord",
                name: "STANDARD",
                handle: DIMENSION_STYLE,
                table: DIMENSION_STYLES,
            },
        );
        tags.whole(70, 0);
        tags.word(0, "ENDTAB");
    }

    fn block_records(&self, tags: &mut Tags) {
        self.table(tags, "BLOCK_RECORD", BLOCK_RECORDS, 2);
        for (name, handle) in [("*Model_Space", MODEL_SPACE), ("*Paper_Space", PAPER_SPACE)] {
            self.entry(
                tags,
                &Entry {
                    kind: "BLOCK_RECORD",
                    class: "AcDbBlockTableRecord",
                    name,
                    handle,
                    table: BLOCK_RECORDS,
                },
            );
        }
        tags.word(0, "ENDTAB");
    }
}

struct Entry<'a> {
    kind: &'a str,
    class: &'a str,
    name: &'a str,
    handle: Handle,
    table: Handle,
}

fn section(tags: &mut Tags, name: &str) {
    tags.word(0, "SECTION");
    tags.word(2, name);
}

fn variable(tags: &mut Tags, name: &str) {
    tags.word(9, name);
}

fn block(tags: &mut Tags, record: Handle, name: &str, handles: (usize, usize)) {
    tags.word(0, "BLOCK");
    tags.handle(5, Handle(handles.0));
    tags.handle(330, record);
    tags.word(100, "AcDbEntity");
    tags.word(8, "0");
    tags.word(100, "AcDbBlockBegin");
    tags.word(2, name);
    tags.whole(70, 0);
    tags.point((10, 20, 30), 0.0, 0.0);
    tags.word(3, name);
    tags.word(1, "");
    tags.word(0, "ENDBLK");
    tags.handle(5, Handle(handles.1));
    tags.handle(330, record);
    tags.word(100, "AcDbEntity");
    tags.word(8, "0");
    tags.word(100, "AcDbBlockEnd");
}

fn dictionary(tags: &mut Tags, handle: Handle, owner: Handle) {
    tags.word(0, "DICTIONARY");
    tags.handle(5, handle);
    tags.handle(330, owner);
    tags.word(100, "AcDbDictionary");
    tags.whole(281, 1);
}

/// Value of `$INSUNITS` (DXF Reference, HEADER section).
const fn unit_code(unit: LengthUnit) -> usize {
    match unit {
        LengthUnit::Inch => 1,
        LengthUnit::Foot => 2,
        LengthUnit::Millimetre => 4,
        LengthUnit::Centimetre => 5,
        LengthUnit::Metre => 6,
    }
}

/// Value of `$MEASUREMENT`: 1 metric, 0 not (DXF Reference, HEADER section).
const fn metric_code(unit: LengthUnit) -> usize {
    match unit {
        LengthUnit::Inch | LengthUnit::Foot => 0,
        LengthUnit::Millimetre | LengthUnit::Centimetre | LengthUnit::Metre => 1,
    }
}
