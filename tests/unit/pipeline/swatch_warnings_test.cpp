#include "pipeline/swatch_warnings.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>

#include "catalog/catalog.h"

namespace ridgetally {
namespace {

Knowledge knowledge() {
    const std::filesystem::path models = std::filesystem::path(RIDGETALLY_SOURCE_DIR) / "models";
    return {load_catalog(models).value(), RecogniserOnDemand(models / "recogniser")};
}

bool warns(const SwatchReading& reading, const std::string& code) {
    const auto warnings = swatch_warnings(reading, knowledge(), {});
    return std::any_of(warnings.begin(), warnings.end(), [&](const Warning& w) { return w.code == code; });
}

SwatchReading with_rows() {
    SwatchReading reading;
    reading.lattice.stitch_pitch_px = {24.0, 0.2, {}};
    reading.lattice.row_pitch_px = Measured{22.0, 0.5, {}};
    return reading;
}

TEST(SwatchWarnings, RowsThatAreTracedNeedNone) {
    EXPECT_FALSE(warns(with_rows(), "rows-by-recogniser"));
    EXPECT_FALSE(warns(with_rows(), "rows-not-resolved"));
}

TEST(SwatchWarnings, RowsOfTheRecogniserAloneAreSaidToBeSo) {
    SwatchReading reading = with_rows();
    reading.lattice.rows_by_recogniser = true;
    EXPECT_TRUE(warns(reading, "rows-by-recogniser"));
}

TEST(SwatchWarnings, RowsThatAreMissingOrDoubtedAreSaidToBeSo) {
    SwatchReading reading = with_rows();
    reading.lattice.row_pitch_px.reset();
    EXPECT_TRUE(warns(reading, "rows-not-resolved"));
    reading.other_row_ratio = 0.8;
    EXPECT_TRUE(warns(reading, "rows-doubted"));
    EXPECT_FALSE(warns(reading, "rows-not-resolved"));
}

}  // namespace
}  // namespace ridgetally
