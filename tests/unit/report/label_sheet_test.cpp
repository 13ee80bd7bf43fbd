#include "report/label_sheet.h"

#include <gtest/gtest.h>

#include "unit/report/example_result.h"

namespace ridgetally {
namespace {

LabelledSwatch swatch(std::int64_t number) {
    LabelledSwatch labelled;
    labelled.yarn.name = "Fennelwick DK, Moss";
    labelled.yarn.colour = "<Moss>";
    Measurement m;
    m.taken = "2026-11-02";
    m.hook_mm = 4.5;
    m.stitch = StitchFamily::sc;
    m.worked = Worked::flat;
    m.state = FabricState::washed;
    m.stitches_per_10cm = 18.0;
    m.stitches_std = 0.1;
    m.rows_per_10cm = 20.0;
    m.rows_std = 0.1;
    labelled.stored = {number, m};
    return labelled;
}

TEST(LabelSheets, SayWhatTheSwatchIs) {
    const auto sheets = label_sheets({swatch(12)}, a4_sheet, example_catalog(), {});
    ASSERT_EQ(sheets.size(), 1U);
    for (const char* part :
         {"No. 12", "Fennelwick DK, Moss", "colour &lt;Moss&gt;", "hook 4.5 mm; sc, flat; washed",
          "Gauge: 18 sc and 20 rows = 10 cm", "2026-11-02", "width=\"210mm\"", "height=\"297mm\""})
        EXPECT_NE(sheets[0].find(part), std::string::npos) << part;
}

TEST(LabelSheets, TakeAsManySheetsAsTheyNeed) {
    std::vector<LabelledSwatch> swatches;
    for (int i = 1; i <= 23; ++i) swatches.push_back(swatch(i));
    // Two by five labels of 90 by 50 mm fit on A4 and on Letter.
    for (const SheetSize& size : {a4_sheet, letter_sheet}) {
        const auto sheets = label_sheets(swatches, size, example_catalog(), {});
        ASSERT_EQ(sheets.size(), 3U);
        EXPECT_NE(sheets[0].find("No. 10<"), std::string::npos);
        EXPECT_NE(sheets[2].find("No. 23<"), std::string::npos);
    }
    EXPECT_TRUE(label_sheets({}, a4_sheet, example_catalog(), {}).empty());
}

TEST(LabelSheets, NeverCutAGauge) {
    LabelledSwatch long_name = swatch(1);
    long_name.yarn.name = std::string(300, 'x');
    long_name.stored.measurement.stitch = StitchFamily::stockinette;
    TextOptions options;
    options.units = SizeUnit::inch;
    const auto sheets = label_sheets({long_name}, letter_sheet, example_catalog(), options);
    EXPECT_NE(sheets[0].find("rows in stockinette = 4 in<"), std::string::npos) << sheets[0];
    EXPECT_NE(sheets[0].find("\u2026"), std::string::npos);
}

}  // namespace
}  // namespace ridgetally
