#include "yarns/migrations.h"

namespace ridgetally::migrations {

void crowns_and_pieces(const sql::Database& database) {
    database.script(R"sql(
ALTER TABLE measurement ADD COLUMN kind TEXT NOT NULL DEFAULT 'swatch'
    CHECK (kind IN ('swatch', 'crown', 'piece'));
ALTER TABLE measurement ADD COLUMN diameter_mm REAL CHECK (diameter_mm > 0);
ALTER TABLE measurement ADD COLUMN rounds REAL CHECK (rounds > 0);
ALTER TABLE measurement ADD COLUMN last_round_stitches REAL CHECK (last_round_stitches > 0);

-- Finding a gauge reads this index alone.
DROP INDEX measurement_by_kind;
CREATE INDEX measurement_by_kind
    ON measurement (yarn, hook_mm, stitch, worked, state, stitches_per_10cm, stitches_std, rows_per_10cm,
                    rows_std, kind, removed);

PRAGMA user_version = 2;
)sql");
}

}  // namespace ridgetally::migrations
