#include "report/document.h"

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "example_result.h"

namespace ridgetally {
namespace {

std::vector<std::string> keys_of(const Document& object) {
    std::vector<std::string> keys;
    for (const auto& item : object.items()) keys.push_back(item.key());
    return keys;
}

using Keys = std::vector<std::string>;

// The keys are the public contract; programs of others read them.
TEST(SwatchDocument, HasTheKeysOfTheContract) {
    const Document document = swatch_document(example_swatch(), {"marked.jpg"});
    EXPECT_EQ(keys_of(document), (Keys{"schema", "program", "command", "photo", "scale", "stitch", "swatch",
                                       "warnings", "rivals", "uncertainty", "annotated"}));
    EXPECT_EQ(document["schema"], "ridgetally.report/1");
    EXPECT_EQ(document["command"], "swatch");
    EXPECT_EQ(keys_of(document["program"]), Keys{"version"});
    EXPECT_EQ(keys_of(document["photo"]), (Keys{"file", "sha256", "width_px", "height_px"}));
    EXPECT_EQ(keys_of(document["scale"]),
              (Keys{"reference", "unit", "px_per_mm", "tilt_deg", "camera_distance_mm"}));
    EXPECT_EQ(keys_of(document["stitch"]), (Keys{"family", "worked", "source", "confidence"}));
    EXPECT_EQ(document["stitch"]["family"], "sc");
    EXPECT_EQ(document["stitch"]["worked"], "flat");
    EXPECT_EQ(document["stitch"]["source"], "told");
    EXPECT_EQ(document["annotated"], "marked.jpg");
}

TEST(SwatchDocument, GivesValueStandardUncertaintyAndInterval) {
    const Document document = swatch_document(example_swatch());
    const Document& stitches = document["swatch"]["stitches_per_10cm"];
    EXPECT_EQ(keys_of(stitches), (Keys{"value", "std", "low95", "high95"}));
    EXPECT_DOUBLE_EQ(stitches["value"].get<double>(), 18.0);
    // hypot(0.006, 0.008) = 0.01 of 18 is 0.18; 1.96 of them on either side (JCGM 100:2008).
    EXPECT_DOUBLE_EQ(stitches["std"].get<double>(), 0.18);
    EXPECT_DOUBLE_EQ(stitches["low95"].get<double>(), 17.6472);
    EXPECT_DOUBLE_EQ(stitches["high95"].get<double>(), 18.3528);
}

TEST(SwatchDocument, LeavesOutWhatIsNotVisible) {
    SwatchResult result = example_swatch();
    EXPECT_EQ(keys_of(swatch_document(result)["swatch"]), (Keys{"stitches_per_10cm", "rows_per_10cm"}));
    EXPECT_FALSE(swatch_document(result).contains("annotated"));
    result.rows_per_10cm.reset();
    result.stitch.family.reset();
    result.width_mm = exact(100.0);
    result.stitches = exact(18.0);
    const Document document = swatch_document(result);
    EXPECT_EQ(keys_of(document["swatch"]), (Keys{"stitches_per_10cm", "width_mm", "stitches"}));
    EXPECT_FALSE(document["stitch"].contains("family"));
}

TEST(SwatchDocument, CarriesWarningsRivalsBudgetAndAllPhotos) {
    SwatchResult result = example_swatch();
    result.warnings = {{"tilted", "hold the phone flat"}};
    result.rivals = {{9.0, 20.0, 0.4}};
    result.photos = {result.photo, {"second.jpg", std::string(64, 'b'), 800, 600}};
    const Document document = swatch_document(result);
    EXPECT_EQ(document["warnings"],
              Document::parse(R"([{"code": "tilted", "message": "hold the phone flat"}])"));
    EXPECT_EQ(document["rivals"],
              Document::parse(R"([{"stitches_per_10cm": 9.0, "rows_per_10cm": 20.0, "score": 0.4}])"));
    EXPECT_EQ(document["uncertainty"]["stitches_per_10cm"][1],
              Document::parse(R"({"name": "ruler class", "relative_std": 0.008})"));
    ASSERT_EQ(document["photos"].size(), 2U);
    EXPECT_EQ(document["photos"][1]["file"], "second.jpg");
}

TEST(SwatchDocument, SameResultSameBytes) {
    EXPECT_EQ(json_text(swatch_document(example_swatch())), json_text(swatch_document(example_swatch())));
}

TEST(ScaleDocument, ListsEveryMarkInMillimetresAndPhotoPixels) {
    const SwatchResult swatch = example_swatch();
    const Document document = scale_document({swatch.photo, swatch.scale, {}});
    EXPECT_EQ(document["command"], "scale");
    const Document& marks = document["scale"]["marks"];
    ASSERT_EQ(marks.size(), 101U);
    EXPECT_EQ(keys_of(marks[10]), (Keys{"mm", "x_px", "y_px"}));
    EXPECT_EQ(marks[10]["mm"], 10.0);
    EXPECT_EQ(marks[10]["x_px"], 150.0);
    EXPECT_EQ(marks[10]["y_px"], 160.0);
}

TEST(RefusalDocument, SaysStageCodeMessageAndHint) {
    const Document document =
        refusal_document({"scale", "no-ruler", "no ruler found", "lay one beside it"}, {"swatch", "p.jpg"});
    EXPECT_EQ(document["schema"], "ridgetally.report/1");
    EXPECT_EQ(
        document["refusal"],
        Document::parse(
            R"({"stage": "scale", "code": "no-ruler", "message": "no ruler found", "hint": "lay one beside it"})"));
    EXPECT_FALSE(document.contains("swatch"));
}

TEST(Json, FileNamesThatAreNotUtf8DoNotBreakTheDocument) {
    const Document document = failure_document(65, "no photo", {"swatch", "caf\xE9.jpg"});
    EXPECT_TRUE(Document::accept(json_text(document)));
    EXPECT_EQ(document["error"]["status"], 65);
}

TEST(Json, ALineIsOneLine) {
    const std::string line = json_line(swatch_document(example_swatch()));
    EXPECT_EQ(line.find('\n'), line.size() - 1);
}

}  // namespace
}  // namespace ridgetally
