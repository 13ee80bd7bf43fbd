#include "yarns/sql/views.h"

namespace ridgetally::sql {

void make_views(const Database& database) {
    database.script(R"sql(
CREATE TEMP VIEW present_yarn AS
SELECT id, name, weight_category, fibre, colour, dye_lot, ball_g, ball_m, balls, band_craft, band_stitches,
       band_rows, band_span_mm, band_tool_mm, notes, added
FROM main.yarn WHERE removed IS NULL;

CREATE TEMP VIEW present_measurement AS
SELECT number, yarn, kind, taken, hook_mm, stitch, worked, state, stitches_per_10cm, stitches_std, rows_per_10cm,
       rows_std, mass_g, width_mm, height_mm, diameter_mm, rounds, last_round_stitches, photo_file, photo_sha256
FROM main.measurement m
WHERE removed IS NULL AND EXISTS (SELECT 1 FROM main.yarn y WHERE y.id = m.yarn AND y.removed IS NULL);
)sql");
}

}  // namespace ridgetally::sql
