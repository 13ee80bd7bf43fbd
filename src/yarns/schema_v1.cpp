#include "yarns/migrations.h"

// How the tables began. Never changed once released: what comes later is a migration of its own.
//
// Names are compared byte for byte. Text that was not told is empty, figures that were not told are NULL.
// What was removed stays, marked with the number of the removal, until it is brought back.
// A report has a table of its own, so that scanning measurements does not read through all of them.
namespace ridgetally::migrations {

void make_version_1(const sql::Database& database) {
    database.script(R"sql(
CREATE TABLE yarn (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    name TEXT NOT NULL CHECK (name <> ''),
    weight_category INTEGER CHECK (weight_category BETWEEN 0 AND 7),
    fibre TEXT NOT NULL,
    colour TEXT NOT NULL,
    dye_lot TEXT NOT NULL,
    ball_g REAL CHECK (ball_g > 0),
    ball_m REAL CHECK (ball_m > 0),
    balls REAL CHECK (balls >= 0),
    band_craft TEXT CHECK (band_craft IN ('crochet', 'knit')),
    band_stitches REAL CHECK (band_stitches > 0),
    band_rows REAL CHECK (band_rows > 0),
    band_span_mm REAL CHECK (band_span_mm > 0),
    band_tool_mm REAL CHECK (band_tool_mm > 0),
    notes TEXT NOT NULL,
    added TEXT NOT NULL,
    removed INTEGER
) STRICT;
CREATE UNIQUE INDEX yarn_by_name ON yarn (name) WHERE removed IS NULL;

CREATE TABLE measurement (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    yarn INTEGER NOT NULL REFERENCES yarn (id) ON DELETE CASCADE,
    taken TEXT NOT NULL,
    hook_mm REAL CHECK (hook_mm > 0),
    stitch TEXT,
    worked TEXT CHECK (worked IN ('flat', 'round')),
    state TEXT CHECK (state IN ('off-hook', 'relaxed', 'washed')),
    stitches_per_10cm REAL CHECK (stitches_per_10cm > 0),
    stitches_std REAL CHECK (stitches_std > 0),
    rows_per_10cm REAL CHECK (rows_per_10cm > 0),
    rows_std REAL CHECK (rows_std > 0),
    mass_g REAL CHECK (mass_g > 0),
    width_mm REAL CHECK (width_mm > 0),
    height_mm REAL CHECK (height_mm > 0),
    photo_file TEXT NOT NULL,
    photo_sha256 TEXT NOT NULL,
    removed INTEGER,
    CHECK ((stitches_per_10cm IS NULL) = (stitches_std IS NULL)),
    CHECK ((rows_per_10cm IS NULL) = (rows_std IS NULL))
) STRICT;
CREATE INDEX measurement_by_kind
    ON measurement (yarn, hook_mm, stitch, worked, state, stitches_per_10cm, stitches_std, removed);
CREATE INDEX measurement_by_photo ON measurement (photo_sha256) WHERE photo_sha256 <> '';

CREATE TABLE report (
    measurement INTEGER PRIMARY KEY REFERENCES measurement (number) ON DELETE CASCADE,
    json TEXT NOT NULL CHECK (json <> '')
) STRICT;

PRAGMA application_id = 0x52646754;
PRAGMA user_version = 1;
)sql");
}

}  // namespace ridgetally::migrations
