#include "yarns/gauges.h"

#include "unit/yarns/example_yarns.h"
#include "yarns/from_report.h"

namespace ridgetally {
namespace {

using Gauges = WithRecord;

/// A report as `ridgetally swatch --json` prints it.
const char* report_text = R"({"schema": "ridgetally.report/1", "command": "swatch",
    "photo": {"file": "moss 🧶.jpg", "sha256": "0a1b", "width_px": 1600, "height_px": 1200},
    "stitch": {"family": "sc", "worked": "flat", "source": "told", "confidence": 1},
    "swatch": {"stitches_per_10cm": {"value": 14.25, "std": 0.125, "low95": 14, "high95": 14.5},
               "rows_per_10cm": {"value": 16.5, "std": 0.25, "low95": 16, "high95": 17},
               "width_mm": {"value": 150, "std": 1, "low95": 148, "high95": 152}},
    "warnings": [], "tilt": 1e-05})";

ToldOfPiece told() { return {"2026-11-02", 4.5, FabricState::washed, 12.0}; }

TEST_F(Gauges, AReportBecomesAMeasurementAndIsKeptInFull) {
    const auto report = YarnDocument::parse(report_text);
    const Measurement measurement = must(measurement_of_report(report, told()));
    EXPECT_EQ(measurement.stitch, StitchFamily::sc);
    EXPECT_EQ(measurement.worked, Worked::flat);
    EXPECT_EQ(measurement.stitches_per_10cm, 14.25);
    EXPECT_EQ(measurement.rows_std, 0.25);
    EXPECT_EQ(measurement.width_mm, 150.0);
    EXPECT_FALSE(measurement.height_mm);
    EXPECT_EQ(measurement.photo_file, "moss 🧶.jpg");

    const Record record = open();
    must(add_yarn(record, moss()));
    const auto number = must(save_measurement(record, moss().name, measurement));
    const auto stored = must(measurements_of(record, moss().name, Reports::read));
    ASSERT_EQ(stored.size(), 1U);
    EXPECT_EQ(stored[0].number, number);
    EXPECT_EQ(stored[0].measurement, measurement);
    EXPECT_EQ(YarnDocument::parse(stored[0].measurement.report), report);
    EXPECT_EQ(must(measurements_of(record, moss().name, Reports::left))[0].measurement.report, "");
}

TEST_F(Gauges, CrownsAndPiecesAreKeptToo) {
    const auto crown = must(measurement_of_report(
        YarnDocument::parse(
            R"({"schema": "ridgetally.report/1", "command": "crown", "photo": {"sha256": "0a1b"},
            "stitch": {"family": "sc", "worked": "round"},
            "crown": {"diameter_mm": {"value": 160.5, "std": 1}, "rounds": {"value": 12, "std": 0.1},
                      "last_round_stitches": {"value": 72, "std": 0.5}}})"),
        told()));
    EXPECT_EQ(crown.kind, PieceKind::crown);
    EXPECT_EQ(crown.diameter_mm, 160.5);
    EXPECT_EQ(crown.rounds, 12.0);
    EXPECT_EQ(crown.last_round_stitches, 72.0);
    const auto piece = must(measurement_of_report(
        YarnDocument::parse(
            R"({"schema": "ridgetally.report/1", "command": "piece", "photo": {"sha256": "0a1b"},
            "piece": {"width_mm": {"value": 280, "std": 1}, "height_mm": {"value": 210, "std": 1}}})"),
        told()));
    EXPECT_EQ(piece.kind, PieceKind::piece);
    EXPECT_EQ(piece.width_mm, 280.0);

    // One photo may show a swatch and be measured as a crown: two measurements.
    const Record record = open();
    must(add_yarn(record, moss()));
    must(save_measurement(record, moss().name, crown));
    must(save_measurement(record, moss().name, piece));
    EXPECT_EQ(code_of(save_measurement(record, moss().name, crown)), "photo-saved");
    EXPECT_EQ(must(measurements_of(record, moss().name, Reports::left)).at(0).measurement.rounds, 12.0);
}

TEST_F(Gauges, OnlyMeasurementsOfPiecesAreReports) {
    const auto none = [](const char* text) {
        return code_of(measurement_of_report(YarnDocument::parse(text), told()));
    };
    EXPECT_EQ(none("{}"), "bad-document");
    EXPECT_EQ(none("[1]"), "bad-document");
    EXPECT_EQ(none(R"({"schema": "ridgetally.report/1", "refusal": {"code": "no-ruler"}})"), "bad-document");
}

TEST_F(Gauges, AFileNameThatIsNoTextIsReplacedNotRefused) {
    auto report = YarnDocument::parse(report_text);
    report["photo"]["file"] = "m\xFFss.jpg";
    EXPECT_EQ(must(measurement_of_report(report, told())).photo_file, "m\uFFFDss.jpg");
}

TEST_F(Gauges, TheSamePhotoIsNotSavedTwice) {
    const Record record = open();
    must(add_yarn(record, moss()));
    must(add_yarn(record, named("Oddmere Four")));
    const auto measurement = must(measurement_of_report(YarnDocument::parse(report_text), told()));
    must(save_measurement(record, moss().name, measurement));
    EXPECT_EQ(code_of(save_measurement(record, moss().name, measurement)), "photo-saved");
    EXPECT_EQ(code_of(save_measurement(record, "Oddmere Four", measurement)), "photo-saved");
    // Without a photo nothing tells two swatches of the same gauge apart from one.
    must(save_measurement(record, moss().name, swatch_on(5.0, 13.0, 15.0)));
    must(save_measurement(record, moss().name, swatch_on(5.0, 13.0, 15.0)));
}

TEST_F(Gauges, WhatWasToldCanBeCorrected) {
    const Record record = open();
    must(add_yarn(record, moss()));
    const auto measurement = must(measurement_of_report(YarnDocument::parse(report_text), told()));
    const auto number = must(save_measurement(record, moss().name, measurement));
    must(change_measurement(record, number, [](Measurement m) -> Outcome<Measurement> {
        m.hook_mm = 5.0;
        return m;
    }));
    const auto stored = must(measurements_of(record, moss().name, Reports::read)).at(0).measurement;
    EXPECT_EQ(stored.hook_mm, 5.0);
    EXPECT_EQ(stored.report, measurement.report);
    EXPECT_EQ(
        code_of(change_measurement(record, 99, [](Measurement m) -> Outcome<Measurement> { return m; })),
        "no-such-measurement");
}

TEST_F(Gauges, AYarnThatIsNotThereTakesNone) {
    const Record record = open();
    EXPECT_EQ(code_of(save_measurement(record, "nowhere", swatch_on(5.0, 13.0, 15.0))), "no-such-yarn");
    Measurement bad = swatch_on(5.0, 13.0, 15.0);
    bad.stitches_std.reset();
    EXPECT_EQ(code_of(save_measurement(record, "nowhere", bad)), "bad-value");
}

}  // namespace
}  // namespace ridgetally
