#include <csignal>

#include "unit/yarns/example_yarns.h"
#include "unit/yarns/faulty_disk.h"
#include "unit/yarns/processes.h"
#include "yarns/check.h"
#include "yarns/exchange.h"
#include "yarns/schema.h"
#include "yarns/sql/database.h"

namespace ridgetally {
namespace {

namespace fs = std::filesystem;

/// A record as the first version of the tables had it, written down once and never made by the program.
constexpr sql::Text version_1 = R"sql(
CREATE TABLE yarn (
    id INTEGER PRIMARY KEY AUTOINCREMENT, name TEXT NOT NULL CHECK (name <> ''),
    weight_category INTEGER CHECK (weight_category BETWEEN 0 AND 7),
    fibre TEXT NOT NULL, colour TEXT NOT NULL, dye_lot TEXT NOT NULL,
    ball_g REAL CHECK (ball_g > 0), ball_m REAL CHECK (ball_m > 0), balls REAL CHECK (balls >= 0),
    band_craft TEXT CHECK (band_craft IN ('crochet', 'knit')),
    band_stitches REAL CHECK (band_stitches > 0), band_rows REAL CHECK (band_rows > 0),
    band_span_mm REAL CHECK (band_span_mm > 0), band_tool_mm REAL CHECK (band_tool_mm > 0),
    notes TEXT NOT NULL, added TEXT NOT NULL, removed INTEGER) STRICT;
CREATE UNIQUE INDEX yarn_by_name ON yarn (name) WHERE removed IS NULL;
CREATE TABLE measurement (
    number INTEGER PRIMARY KEY AUTOINCREMENT,
    yarn INTEGER NOT NULL REFERENCES yarn (id) ON DELETE CASCADE,
    taken TEXT NOT NULL, hook_mm REAL CHECK (hook_mm > 0), stitch TEXT,
    worked TEXT CHECK (worked IN ('flat', 'round')),
    state TEXT CHECK (state IN ('off-hook', 'relaxed', 'washed')),
    stitches_per_10cm REAL CHECK (stitches_per_10cm > 0), stitches_std REAL CHECK (stitches_std > 0),
    rows_per_10cm REAL CHECK (rows_per_10cm > 0), rows_std REAL CHECK (rows_std > 0),
    mass_g REAL CHECK (mass_g > 0), width_mm REAL CHECK (width_mm > 0), height_mm REAL CHECK (height_mm > 0),
    photo_file TEXT NOT NULL, photo_sha256 TEXT NOT NULL, removed INTEGER,
    CHECK ((stitches_per_10cm IS NULL) = (stitches_std IS NULL)),
    CHECK ((rows_per_10cm IS NULL) = (rows_std IS NULL))) STRICT;
CREATE INDEX measurement_by_kind
    ON measurement (yarn, hook_mm, stitch, worked, state, stitches_per_10cm, stitches_std, removed);
CREATE INDEX measurement_by_photo ON measurement (photo_sha256) WHERE photo_sha256 <> '';
CREATE TABLE report (
    measurement INTEGER PRIMARY KEY REFERENCES measurement (number) ON DELETE CASCADE,
    json TEXT NOT NULL CHECK (json <> '')) STRICT;

INSERT INTO yarn VALUES
    (1, 'Мох "5"', 3, '60 % wool', 'Moss', '2211', 50.0, 120.0, 3.5, 'knit', 22.0, NULL, 100.0, 4.0, 'a' || char(10) || 'b', '2026-10-03', NULL),
    (2, 'Bramble Rope', NULL, '', '', '', NULL, NULL, NULL, NULL, NULL, NULL, NULL, NULL, '', '2026-10-04', 1);
INSERT INTO measurement VALUES
    (1, 1, '2026-10-05', 4.5, 'sc', 'flat', 'washed', 14.25, 0.125, 16.5, 0.25, 12.0, 150.0, 160.0, 'm.jpg', '0a1b', NULL),
    (7, 1, '2026-10-06', NULL, NULL, NULL, NULL, 14.0, 0.2, NULL, NULL, NULL, NULL, NULL, '', '', NULL),
    (8, 2, '2026-10-07', 9.0, 'hdc', 'flat', NULL, 8.0, 0.2, 6.0, 0.2, NULL, NULL, NULL, '', '', NULL);
INSERT INTO report VALUES (1, '{"schema":"ridgetally.report/1","a":0.1}');
PRAGMA application_id = 0x52646754;
PRAGMA user_version = 1;
)sql";

/// What that record holds, as the program of today exports it.
constexpr const char* exported = R"({
 "schema": "ridgetally.yarns/1",
 "yarns": [
  {
   "name": "Мох \"5\"",
   "weight_category": 3,
   "fibre": "60 % wool",
   "colour": "Moss",
   "dye_lot": "2211",
   "ball_g": 50.0,
   "ball_m": 120.0,
   "balls": 3.5,
   "band_craft": "knit",
   "band_stitches": 22.0,
   "band_span_mm": 100.0,
   "band_tool_mm": 4.0,
   "notes": "a\nb",
   "added": "2026-10-03",
   "measurements": [
    {
     "number": 1,
     "kind": "swatch",
     "taken": "2026-10-05",
     "hook_mm": 4.5,
     "stitch": "sc",
     "worked": "flat",
     "state": "washed",
     "stitches_per_10cm": 14.25,
     "stitches_std": 0.125,
     "rows_per_10cm": 16.5,
     "rows_std": 0.25,
     "mass_g": 12.0,
     "width_mm": 150.0,
     "height_mm": 160.0,
     "photo_file": "m.jpg",
     "photo_sha256": "0a1b",
     "report": {
      "schema": "ridgetally.report/1",
      "a": 0.1
     }
    },
    {
     "number": 7,
     "kind": "swatch",
     "taken": "2026-10-06",
     "stitches_per_10cm": 14.0,
     "stitches_std": 0.2
    }
   ]
  }
 ]
}
)";

class Migration : public WithRecord {
  protected:
    void write_version_1() const {
        for (const auto& name : files()) fs::remove(folder() / name);
        sql::Database(file(), sql::Missing::is_made, 0).script(version_1);
    }
    [[nodiscard]] int version_of(const std::string& path) const {
        auto row = sql::Database(path, sql::Missing::fails, 0).query("PRAGMA user_version");
        return row.step() ? static_cast<int>(row.whole(0)) : -1;
    }
    /// The tables and every row, as text. (The bytes of a copy differ in the counter of changes.)
    [[nodiscard]] static std::string contents_of(const std::string& path) {
        const sql::Database database(path, sql::Missing::fails, 0);
        std::string text;
        auto tables = database.query("SELECT sql FROM sqlite_schema ORDER BY name");
        while (tables.step()) text += tables.text(0);
        auto yarns = database.query("SELECT * FROM yarn ORDER BY id");
        while (yarns.step())
            for (int i = 0; i < 17; ++i) text += yarns.text(i) + "|";
        auto measurements =
            database.query("SELECT m.*, json FROM measurement m LEFT JOIN report ON measurement = number");
        while (measurements.step())
            for (int i = 0; i < 18; ++i) text += measurements.text(i) + "|";
        return text;
    }
    [[nodiscard]] std::string backup() const { return file() + ".schema-1.backup"; }
};

TEST_F(Migration, KeepsEverythingAndWhatWasRemoved) {
    write_version_1();
    const Record record = open();
    EXPECT_EQ(must(export_json(record)), exported);
    EXPECT_EQ(version_of(file()), schema_version);
    const auto check = must(check_record(record));
    EXPECT_TRUE(check.faults.empty()) << testing::PrintToString(check.faults);
    EXPECT_EQ(check.removed, 1);
}

TEST_F(Migration, TheTablesAreThoseOfANewRecord) {
    const auto shape = [](const std::string& path) {
        const sql::Database database(path, sql::Missing::fails, 0);
        auto rows = database.query(
            "SELECT m.name, c.name, c.type, c.\"notnull\", c.dflt_value, c.pk "
            "FROM sqlite_schema m JOIN pragma_table_xinfo(m.name) c "
            "WHERE m.name NOT LIKE 'sqlite%' ORDER BY m.name, c.cid");
        std::string text;
        while (rows.step())
            for (int i = 0; i < 6; ++i) text += rows.text(i) + (i < 5 ? " " : "\n");
        return text;
    };
    (void)open();
    const std::string fresh = shape(file());
    write_version_1();
    (void)open();
    EXPECT_EQ(shape(file()), fresh);
    EXPECT_NE(fresh.find("diameter_mm"), std::string::npos);
}

TEST_F(Migration, ABackupIsMadeFirstAndNeverOverAnother) {
    write_version_1();
    const std::string before = contents_of(file());
    std::ofstream(backup()) << "an older backup";
    (void)open();
    EXPECT_EQ(bytes_of(backup()), "an older backup");
    EXPECT_EQ(contents_of(backup() + "-2"), before);
    EXPECT_EQ(version_of(backup() + "-2"), 1);
    EXPECT_EQ(files().size(), 3U);
    // Opened again, nothing is left to do.
    (void)open();
    EXPECT_EQ(files().size(), 3U);
}

TEST_F(Migration, KilledAtAnyPointTheRecordIsOfOneVersionOrTheOther) {
    int at = 1;
    for (;; ++at) {
        write_version_1();
        const std::string before = contents_of(file());
        Child child([&] {
            put_faulty_disk_under_sqlite(DiskFault::killed, at);
            return Record::open(file(), Access::look).ok() ? 0 : 1;
        });
        const int status = child.status();
        // What stands under the backup's name is a whole record of the old version.
        if (fs::exists(backup())) {
            EXPECT_EQ(contents_of(backup()), before) << at;
        }
        EXPECT_EQ(must(export_json(open())), exported) << at;
        if (status == 0) break;
        ASSERT_EQ(status, -SIGKILL) << at;
    }
    EXPECT_GT(at, 20) << "it was hardly cut off";
}

TEST_F(Migration, AFullDiskLeavesTheOldVersion) {
    write_version_1();
    const std::string before = bytes_of(file());
    for (int at = 1;; ++at) {
        write_version_1();
        Child child([&] {
            put_faulty_disk_under_sqlite(DiskFault::full, at);
            const auto record = Record::open(file(), Access::look);
            return record ? 0 : code_of(record) == "io" ? 1 : 2;
        });
        const int status = child.status();
        if (status == 0) break;
        ASSERT_EQ(status, 1) << at;
        EXPECT_EQ(version_of(file()), 1) << at;
        EXPECT_TRUE(bytes_of(file()) == before) << at;
    }
}

TEST_F(Migration, ADamagedRecordIsNotMigrated) {
    write_version_1();
    std::string bytes = bytes_of(file());
    bytes.resize(bytes.size() - 5000);
    std::ofstream(file(), std::ios::binary) << bytes;
    EXPECT_EQ(code_of(Record::open(file(), Access::change)), "record-damaged");
    EXPECT_TRUE(bytes_of(file()) == bytes);
    EXPECT_EQ(files().size(), 1U);
}

}  // namespace
}  // namespace ridgetally
