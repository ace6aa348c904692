//! Every key of every file, each with an example. `JOB-FILE.md` documents the same keys; a test holds both together.

/// The keys of one table, or the columns of one file.
pub(super) struct Keys {
    /// What has these keys, for messages.
    pub(super) of: &'static str,
    /// How such a table is written.
    pub(super) form: &'static str,
    /// The keys.
    pub(super) names: &'static [&'static str],
    /// Keys that a table cannot do without, with what would be right.
    examples: &'static [(&'static str, &'static str)],
}

impl Keys {
    /// What would be right, where a key is missing.
    pub(super) fn example(&self, key: &str) -> String {
        let found = self.examples.iter().find(|(name, _)| *name == key);
        found.map(|(name, example)| format!("right would be {name} = {example}")).unwrap_or_default()
    }
}

pub(super) const JOB: Keys = Keys {
    of: "a job",
    form: "a file of keys",
    names: &[
        "title",
        "units",
        "practice",
        "limits",
        "rows",
        "holes",
        "answers",
        "spares",
        "forward",
        "inboard",
        "materials",
        "minutes",
        "position",
        "row",
        "edge",
        "damage",
        "look",
    ],
    examples: &[("title", "\"Keel skin panel, frames 2 to 6\"")],
};

pub(super) const POSITION: Keys = Keys {
    of: "a position",
    form: "a table [[position]]",
    names: &["name", "about"],
    examples: &[("name", "\"upright\"")],
};

pub(super) const ROW: Keys = Keys {
    of: "a row",
    form: "a table [[row]]",
    names: &[
        "name",
        "about",
        "structure",
        "member",
        "places",
        "head",
        "installed",
        "rivet",
        "layers",
        "installed-layers",
        "count",
        "points",
        "start",
        "along",
        "pitch",
        "edge",
        "transverse-pitch",
        "pattern",
        "rows-in-pattern",
        "clearance",
        "hole-size",
        "hole",
        "exception",
    ],
    examples: &[
        ("name", "\"K1\""),
        ("structure", "\"primary\" or \"secondary\""),
        ("member", "\"skin\", or what else the row runs along"),
        ("installed", "\"MS20470AD4-5\""),
        ("layers", "[{ role = \"skin\", material = \"2024-T3\", thickness = \".032\" }, ...]"),
    ],
};

pub(super) const LAYER: Keys = Keys {
    of: "a layer",
    form: "a table { role = \"skin\", thickness = \".032\" }",
    names: &["role", "material", "thickness", "preparation"],
    examples: &[("role", "\"skin\""), ("thickness", "\".032+-.002\"")],
};

pub(super) const HOLE: Keys = Keys {
    of: "a measured hole",
    form: "a table [[row.hole]]; the size of all holes of a row is its hole-size",
    names: &["number", "major", "minor", "condition", "direction", "opened", "by", "date", "gauge", "remark"],
    examples: &[("number", "7"), ("major", "\".133\"")],
};

pub(super) const EXCEPTION: Keys = Keys {
    of: "an exception",
    form: "a table [[row.exception]]",
    names: &["holes", "about", "layers", "edge", "pitch", "transverse-pitch", "clearance"],
    examples: &[("holes", "[3, \"5-8\"]")],
};

pub(super) const MINUTES: Keys = Keys {
    of: "the minutes",
    form: "a table [minutes]",
    names: &["set-up", "drill-out", "drive-open", "drive-close"],
    examples: &[],
};

pub(super) const EDGE: Keys = Keys {
    of: "an edge",
    form: "a table [[edge]]",
    names: &["name", "about", "points", "stations", "line", "every", "rows"],
    examples: &[("name", "\"aft edge\"")],
};

pub(super) const DAMAGE: Keys = Keys {
    of: "damage",
    form: "a table [[damage]]",
    names: &["kind", "place", "row", "hole", "at", "member", "length", "depth", "thickness"],
    examples: &[("kind", "\"crack\""), ("place", "\"skin, two inches aft of frame 3\"")],
};

pub(super) const LOOK: Keys = Keys {
    of: "a place to look at",
    form: "a table [[look]]",
    names: &["place", "why", "found"],
    examples: &[("place", "\"keel cap under the tank\""), ("why", "\"sealant was found loose\"")],
};

pub(super) const LIMITS: Keys = Keys {
    of: "a limits file",
    form: "a file of keys",
    names: &[
        "title", "document", "place", "minutes", "limit", "series", "material", "rivet", "flush", "plain", "tension",
    ],
    examples: &[("title", "\"Boat shed limits\"")],
};

pub(super) const SETTINGS: Keys =
    Keys { of: "a settings file", form: "a file of keys", names: &["practice", "limits", "units"], examples: &[] };

pub(super) const LIMIT: Keys = Keys {
    of: "a limit",
    form: "a table [[limit]]",
    names: &["name", "value", "place", "document", "head", "alloy", "diameter", "rows", "after"],
    examples: &[
        ("name", "\"hole-greatest\""),
        ("value", "\".133\""),
        ("place", "\"section 4, table 2\""),
        ("document", "\"structural repair manual\", here or for the whole file"),
    ],
};

pub(super) const SERIES: Keys = Keys {
    of: "a series",
    form: "a table [series.NAS1241]",
    names: &["shank", "head_diameter", "head_height", "length_tolerance", "document", "place"],
    examples: &[("document", "\"part standard\", here or for the whole file")],
};

pub(super) const MATERIAL: Keys = Keys {
    of: "a material",
    form: "a table [material.2024-T3511], or one [[material.2024-T3511]] for each range of thickness",
    names: &[
        "thickness",
        "basis",
        "tension_ultimate",
        "tension_yield",
        "compression_yield",
        "shear_ultimate",
        "bearing_ultimate_15",
        "bearing_ultimate_20",
        "bearing_yield_15",
        "bearing_yield_20",
        "modulus",
        "modulus_compression",
        "bend_radius",
        "density",
        "own",
        "document",
        "place",
    ],
    examples: &[("document", "\"material handbook\", here or for the whole file")],
};

pub(super) const RIVET: Keys = Keys {
    of: "a rivet alloy",
    form: "a table [rivet.2117]",
    names: &["shear_ultimate", "document", "place"],
    examples: &[("shear_ultimate", "\"30 ksi\""), ("document", "\"material handbook\", here or for the whole file")],
};

pub(super) const FLUSH: Keys = Keys {
    of: "a flush joint",
    form: "a table [flush.MS20426AD4], or one [[flush.MS20426AD4]] for each sheet",
    names: &["material", "thickness", "seat", "edge", "ultimate", "yield", "document", "place"],
    examples: &[
        ("material", "\"2024-T3\""),
        ("thickness", "\".040\""),
        ("seat", "\"countersunk\" or \"dimpled\""),
        ("ultimate", "309"),
        ("document", "\"test report\", here or for the whole file"),
    ],
};

pub(super) const PLAIN: Keys = Keys {
    of: "a joint in plain sheet",
    form: "a table [plain.MS20470AD4], or one [[plain.MS20470AD4]] for each sheet",
    names: &["material", "thickness", "edge", "ultimate", "yield", "document", "place"],
    examples: &[
        ("material", "\"2024-T3\""),
        ("thickness", "\".016\""),
        ("ultimate", "150"),
        ("document", "\"test report\", here or for the whole file"),
    ],
};

pub(super) const TENSION: Keys = Keys {
    of: "the tension of a rivet",
    form: "a table [tension.MS20470AD4]",
    names: &["ultimate", "document", "place"],
    examples: &[("ultimate", "120"), ("document", "\"test report\", here or for the whole file")],
};

pub(super) const ROWS_FILE: Keys = Keys {
    of: "a rows file",
    form: "",
    names: &[
        "row",
        "layers",
        "installed",
        "rivet",
        "count",
        "pitch",
        "edge",
        "structure",
        "member",
        "places",
        "head",
        "clearances",
        "about",
        "points",
        "start",
        "along",
        "transverse_pitch",
        "pattern",
        "rows_in_pattern",
        "hole_size",
        "installed_layers",
        "holes",
    ],
    examples: &[],
};

pub(super) const HOLES_FILE: Keys = Keys { of: "a holes file", form: "", names: &super::holes::COLUMNS, examples: &[] };

pub(super) const ANSWERS_FILE: Keys =
    Keys { of: "an answers file", form: "", names: &super::answers::ANSWER_COLUMNS, examples: &[] };

pub(super) const POINTS_FILE: Keys = Keys { of: "a points file", form: "", names: &["x", "y"], examples: &[] };

pub(super) const GROUP_FILE: Keys =
    Keys { of: "a points file of a group", form: "", names: &super::points::GROUP_COLUMNS, examples: &[] };

pub(super) const TRIM_FILE: Keys = Keys { of: "a trim file", form: "", names: &["station", "offset"], examples: &[] };

pub(super) const DRIVEN_FILE: Keys = Keys {
    of: "a driven file",
    form: "",
    names: &["row", "hole", "diameter", "height", "condition", "remark", "by", "date", "gauge", "batch", "driven_by"],
    examples: &[],
};

pub(super) const SEAMS_FILE: Keys = Keys {
    of: "a seams file",
    form: "",
    names: &["side", "length", "layers", "rivet", "pitch", "edge", "rows", "row_spacing", "staggered"],
    examples: &[],
};

pub(super) const STOCK_FILE: Keys =
    Keys { of: "a stock file", form: "", names: &["part", "on_hand", "pack"], examples: &[] };
