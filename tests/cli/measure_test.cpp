#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "cli/run_program.h"
#include "image/photo.h"

namespace ridgetally::blackbox {
namespace {

using nlohmann::json;

const std::vector<std::string> told = {"swatch", "--stitch", "sc", "--worked", "flat"};

std::vector<std::string> with(std::vector<std::string> arguments, const std::vector<std::string>& more) {
    arguments.insert(arguments.end(), more.begin(), more.end());
    return arguments;
}

/// The truth of a sample, from the file beside it.
json truth_of(const std::string& stem, const std::string& command) {
    const json truth = json::parse(bytes_of(sample(stem + ".truth.json")), nullptr, false);
    for (const auto& entry : truth.value("cases", json::array())) {
        if (entry.value("command", "") == command) return entry["truth"];
    }
    ADD_FAILURE() << "no truth of " << stem;
    return {};
}

void expect_measured(const json& quantity) {
    for (const char* key : {"value", "std", "low95", "high95"}) {
        ASSERT_TRUE(quantity.contains(key) && quantity[key].is_number()) << key;
    }
    EXPECT_LT(quantity["low95"].get<double>(), quantity["value"].get<double>());
    EXPECT_LT(quantity["value"].get<double>(), quantity["high95"].get<double>());
    EXPECT_NEAR(quantity["high95"].get<double>() - quantity["low95"].get<double>(),
                2 * 1.96 * quantity["std"].get<double>(), 1e-3);
}

using Measure = WithFolder;

TEST_F(Measure, ASampleWithinItsOwnInterval) {
    const Finished finished = run(with(told, {"--json", sample("brimful-moss.jpg")}));
    ASSERT_EQ(finished.status, 0) << finished.err;
    const json document = finished.json();
    EXPECT_EQ(document["schema"], "ridgetally.report/1");
    EXPECT_EQ(document["command"], "swatch");
    EXPECT_EQ(document["photo"]["sha256"].get<std::string>().size(), 64U);
    EXPECT_EQ(document["stitch"]["source"], "told");
    const json truth = truth_of("brimful-moss", "swatch");
    for (const char* key : {"stitches_per_10cm", "rows_per_10cm"}) {
        const json& quantity = document["swatch"][key];
        expect_measured(quantity);
        // Twice the half width: the 95 % interval may miss once in twenty, this must not.
        const double half = quantity["high95"].get<double>() - quantity["value"].get<double>();
        EXPECT_NEAR(quantity["value"].get<double>(), truth[key].get<double>(), 2.0 * half) << key;
    }
}

TEST_F(Measure, PointsByHandOnARulerDoNotMakeThatASecondSwatch) {
    for (const char* stem : {"brimful-moss", "brim-slate", "earflap-ochre"}) {
        const json ruler = truth_of(stem, "scale")["segments"][0];
        std::string points;
        for (const char* end : {"p", "q"}) {
            for (const auto& coordinate : ruler[end]) points += coordinate.dump() + ",";
        }
        points += ruler["mm"].dump() + "mm";
        const Finished finished =
            run({"swatch", "--scale", points, "--json", sample(std::string(stem) + ".jpg")});
        ASSERT_EQ(finished.status, 0) << stem << ": " << finished.err;
        const json stitches = finished.json()["swatch"]["stitches_per_10cm"];
        const double truth = truth_of(stem, "swatch")["stitches_per_10cm"].get<double>();
        EXPECT_LT(stitches["low95"].get<double>(), truth) << stem;
        EXPECT_GT(stitches["high95"].get<double>(), truth) << stem;
    }
}

TEST_F(Measure, TheSamePhotoGivesTheSameBytes) {
    const auto arguments = with(told, {"--json", sample("brimful-moss.jpg")});
    EXPECT_EQ(run(arguments).out, run(arguments).out);
}

TEST_F(Measure, ThePhotoWithoutARulerIsRefusedWithAHint) {
    const Finished finished = run(with(told, {sample("forgot-the-ruler.jpg")}));
    EXPECT_EQ(finished.status, 2);
    EXPECT_EQ(finished.out, "");
    ASSERT_EQ(lines_of(finished.err).size(), 2U) << finished.err;
    EXPECT_NE(finished.err.find("try: "), std::string::npos);
}

TEST_F(Measure, TextSpeaksTheTermsAndUnitsAskedFor) {
    const Finished us = run(with(told, {sample("brimful-moss.jpg")}));
    EXPECT_NE(us.out.find("Gauge: "), std::string::npos) << us.err;
    EXPECT_NE(us.out.find("Single crochet"), std::string::npos);
    const Finished uk = run(with(told, {"--terms", "uk", "--units", "in", sample("brimful-moss.jpg")}));
    EXPECT_NE(uk.out.find("Tension: "), std::string::npos);
    EXPECT_NE(uk.out.find("Double crochet"), std::string::npos);
    EXPECT_LT(uk.out.find("per 4 in"), uk.out.find("per 10 cm"));
}

TEST_F(Measure, TheAnnotatedPictureIsWrittenAndNamed) {
    const Finished finished =
        run(with(told, {"--json", "--annotated", path("marked.png"), sample("brimful-moss.jpg")}));
    ASSERT_EQ(finished.status, 0) << finished.err;
    EXPECT_EQ(finished.json()["annotated"], path("marked.png"));
    const auto picture = read_photo(path("marked.png"));
    ASSERT_TRUE(picture.ok());
    EXPECT_LE(picture->grey.cols, 1600);
    EXPECT_GT(picture->grey.rows, picture->grey.cols / 2);
}

TEST_F(Measure, APictureThatCannotBeWrittenDoesNotHideTheResult) {
    const Finished finished =
        run(with(told, {"--json", "--annotated", path("no/such/folder/m.png"), sample("brimful-moss.jpg")}));
    EXPECT_EQ(finished.status, 74);
    EXPECT_TRUE(finished.json().contains("swatch"));
    EXPECT_FALSE(finished.json().contains("annotated"));
    EXPECT_EQ(lines_of(finished.err).size(), 1U) << finished.err;
}

TEST_F(Measure, TheTraceHasPicturesAndNotes) {
    const Finished finished = run(with(told, {"--trace", path("trace"), sample("brimful-moss.jpg")}));
    EXPECT_EQ(finished.status, 0) << finished.err;
    EXPECT_TRUE(std::filesystem::exists(path("trace/notes.txt")));
    for (const char* picture :
         {"01-reference-marks.png", "02-fabric-mask.png", "03-rectified-fabric.png", "04-ridges.png"})
        EXPECT_GT(bytes_of(path(std::string("trace/") + picture)).size(), 100U) << picture;
}

// Turned work shows its face every second row: told so, the program counts two rows a repeat, and comes to
// the same gauge. Told that what repeats is two stitches by two rows, it counts twice as many.
TEST_F(Measure, RepeatsAreCountedAndMultiplied) {
    const auto gauge = [&](const std::vector<std::string>& repeat) {
        auto arguments = repeat;
        for (const char* more : {"swatch", "--stitch", "sc-blo", "--worked", "flat", "--json"})
            arguments.emplace_back(more);
        std::rotate(arguments.begin(), arguments.begin() + static_cast<std::ptrdiff_t>(repeat.size()),
                    arguments.end());
        arguments.push_back(sample("brim-slate.jpg"));
        return run(arguments).json()["swatch"];
    };
    const json plain = gauge({});
    const json pairs = gauge({"--repeat", "1x2"});
    EXPECT_NEAR(pairs["rows_per_10cm"]["value"].get<double>(), plain["rows_per_10cm"]["value"].get<double>(),
                plain["rows_per_10cm"]["std"].get<double>());
    EXPECT_NEAR(pairs["stitches_per_10cm"]["value"].get<double>(),
                plain["stitches_per_10cm"]["value"].get<double>(),
                plain["stitches_per_10cm"]["std"].get<double>());
    const json many = gauge({"--repeat", "2x2"});
    const double twice = 2.0 * plain["stitches_per_10cm"]["value"].get<double>();
    EXPECT_GT(twice, many["stitches_per_10cm"]["low95"].get<double>());
    EXPECT_LT(twice, many["stitches_per_10cm"]["high95"].get<double>());
}

TEST_F(Measure, TwoPhotosAreOneSwatch) {
    const std::string photo = sample("brimful-moss.jpg");
    const json one = run(with(told, {"--json", photo})).json();
    const json two = run(with(told, {"--json", photo, photo})).json();
    ASSERT_EQ(two["photos"].size(), 2U);
    // The same photo twice tells nothing against the first answer.
    EXPECT_NEAR(two["swatch"]["stitches_per_10cm"]["value"].get<double>(),
                one["swatch"]["stitches_per_10cm"]["value"].get<double>(), 1e-4);
    EXPECT_LE(two["swatch"]["stitches_per_10cm"]["std"].get<double>(),
              one["swatch"]["stitches_per_10cm"]["std"].get<double>());
}

TEST_F(Measure, APhotoThatCannotBeMeasuredIsLeftOutOfTheOthersWithAWarning) {
    const Finished finished =
        run(with(told, {"--json", sample("brimful-moss.jpg"), sample("forgot-the-ruler.jpg")}));
    ASSERT_EQ(finished.status, 0) << finished.err;
    const json warnings = finished.json()["warnings"];
    bool told_so = false;
    for (const auto& warning : warnings) told_so = told_so || warning["code"] == "photo-left-out";
    EXPECT_TRUE(told_so) << warnings;
}

TEST_F(Measure, OneMissingPhotoOfSeveralStopsTheMeasurement) {
    EXPECT_EQ(run(with(told, {sample("brimful-moss.jpg"), path("missing.jpg")})).status, 66);
}

TEST_F(Measure, TheRulerAloneListsItsMarks) {
    const Finished finished =
        run({"scale", "--json", "--annotated", path("ruler.jpg"), sample("brimful-moss.jpg")});
    ASSERT_EQ(finished.status, 0) << finished.err;
    const json document = finished.json();
    EXPECT_EQ(document["command"], "scale");
    expect_measured(document["scale"]["px_per_mm"]);
    const json& marks = document["scale"]["marks"];
    ASSERT_GE(marks.size(), 20U);
    for (std::size_t i = 1; i < marks.size(); ++i) {
        EXPECT_LT(marks[i - 1]["mm"].get<double>(), marks[i]["mm"].get<double>());
    }
    EXPECT_TRUE(std::filesystem::exists(path("ruler.jpg")));
}

TEST_F(Measure, WithoutTheRecogniserTheStitchMustBeTold) {
    const auto models =
        std::filesystem::path(sample("brimful-moss.jpg")).parent_path().parent_path() / "models";
    std::filesystem::copy(models, path("models"), std::filesystem::copy_options::recursive);
    std::filesystem::remove(path("models/recogniser/phase-fields.onnx"));
    ::setenv("RIDGETALLY_MODELS", path("models").c_str(), 1);
    const Finished untold = run({"swatch", "--json", sample("brimful-moss.jpg")});
    const Finished answered = run(with(told, {"--json", sample("brimful-moss.jpg")}));
    ::unsetenv("RIDGETALLY_MODELS");

    EXPECT_EQ(untold.status, 2);
    EXPECT_EQ(untold.json()["refusal"]["code"], "no-weights");
    ASSERT_EQ(answered.status, 0) << answered.err;
    const json warnings = answered.json()["warnings"];
    EXPECT_TRUE(std::any_of(warnings.begin(), warnings.end(), [](const json& warning) {
        return warning["code"] == "no-recogniser";
    })) << warnings;
}

TEST_F(Measure, WithoutModelsItSaysSoAndStops) {
    ::setenv("RIDGETALLY_MODELS", path("nowhere").c_str(), 1);
    const Finished finished = run(with(told, {sample("brimful-moss.jpg")}));
    ::unsetenv("RIDGETALLY_MODELS");
    EXPECT_EQ(finished.status, 70);
    EXPECT_EQ(lines_of(finished.err).size(), 1U) << finished.err;
}

TEST_F(Measure, ACrownsRoundsAndStitchesAreCounted) {
    const Finished finished =
        run({"crown", "--stitch", "sc-blo", "--stitches", "45", "--json", sample("earflap-crown.jpg")});
    ASSERT_EQ(finished.status, 0) << finished.err;
    const json document = finished.json();
    const json truth = truth_of("earflap-crown", "crown");
    const json& crown = document["crown"];
    EXPECT_EQ(crown["rounds"]["value"], truth["rounds"]);
    EXPECT_EQ(crown["last_round_stitches"]["value"], truth["last_round_stitches"]);
    expect_measured(crown["diameter_mm"]);
    const double half =
        crown["diameter_mm"]["high95"].get<double>() - crown["diameter_mm"]["value"].get<double>();
    EXPECT_NEAR(crown["diameter_mm"]["value"].get<double>(), truth["diameter_mm"].get<double>(), 2.0 * half);
    // The pattern's 45 is met, or cannot be excluded.
    const std::string verdict = document["checks"][0]["verdict"];
    EXPECT_TRUE(verdict == "met" || verdict == "unsure") << verdict;
}

TEST_F(Measure, ASwatchIsNoCrown) {
    const Finished finished = run({"crown", "--json", sample("brimful-moss.jpg")});
    EXPECT_EQ(finished.status, 2) << finished.out;
    EXPECT_EQ(finished.json()["refusal"]["stage"], "disc");
}

TEST_F(Measure, APieceHasWidthAndHeight) {
    const Finished finished =
        run({"piece", "--want-width", "12..14cm", "--json", sample("brimful-moss.jpg")});
    ASSERT_EQ(finished.status, 0) << finished.err;
    const json piece = finished.json()["piece"];
    for (const char* key : {"width_mm", "height_mm", "circumference_flat_mm"}) expect_measured(piece[key]);
    EXPECT_NEAR(piece["circumference_flat_mm"]["value"].get<double>(),
                2.0 * piece["width_mm"]["value"].get<double>(), 1e-2);
}

}  // namespace
}  // namespace ridgetally::blackbox
