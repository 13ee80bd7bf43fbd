#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/stitch.h"

namespace ridgetally {

/// A length with the limits between which it is sold, mm.
struct Limits {
    double nominal = 0.0;
    double low = 0.0;
    double high = 0.0;
    std::string source;

    /// Standard uncertainty of a value evenly likely between the limits (JCGM 100:2008, clause 4.3.7).
    [[nodiscard]] double std() const;
};

struct StitchName {
    std::string name;
    std::string abbreviation;
};

/// A printed gauge: so many stitches and rows over the same span.
struct PublishedGauge {
    double stitches = 0.0;
    double rows = 0.0;
    double span_mm = 0.0;  ///< 100 or 101.6 (4 in)
    std::string source;
};

/// Height over width of one stitch of a family.
struct HeightToWidth {
    double mean = 0.0;
    double std = 0.0;  ///< to expect of another maker's piece
    double low = 0.0;
    double high = 0.0;
    int count = 0;  ///< published gauges behind it
    std::string source;
};

/// Stitches added each round of a flat circle, as published schemes have it.
struct AddedEachRound {
    int usual = 0;
    int low = 0;
    int high = 0;
    std::string source;
};

struct StitchFacts {
    StitchFamily family = StitchFamily::sc;
    StitchName us;
    StitchName uk;
    std::vector<PublishedGauge> gauges;
    HeightToWidth height_to_width;
    int repeat_rows_flat = 2;   ///< rows after which the picture of the fabric repeats, worked flat
    int repeat_rows_round = 1;  ///< the same, worked in the round
    std::optional<AddedEachRound> added_each_round;  ///< none where no scheme was found
    double width_in_yarn_radii_low = 0.0;
    double width_in_yarn_radii_high = 0.0;
    std::string source;
};

/// A card or sheet: width is the longer side.
struct FlatObject {
    std::string key;
    std::string name;
    Limits width_mm;
    Limits height_mm;
    Limits thickness_mm;
    Limits corner_radius_mm;
    std::string source;
};

/// A round coin in circulation.
struct Coin {
    std::string key;
    std::string name;
    Limits diameter_mm;
    std::optional<Limits> thickness_mm;
    std::string source;
};

/// Accuracy class of rules and tapes: between two marks L apart the length may be off by
/// a + b times L in steps of `step_m`, rounded up; from the end face by c more.
struct RuleClass {
    std::string key;
    std::string name;
    double a_mm = 0.0;
    double b_mm = 0.0;  ///< a step
    double c_mm = 0.0;
    double step_m = 1.0;
    std::string source;
};

/// A kind of ruler that looks tell apart: "tape", "wood", "steel" or "plastic".
struct RulerKind {
    std::string key;
    std::string name;
    Limits face_mm;  ///< height of the marked face over what the ruler lies on
    std::string source;
};

/// Largest permitted error between two marks, mm. Throws std::invalid_argument for a length not above zero.
[[nodiscard]] double tolerance_between_marks_mm(const RuleClass& rule, double length_mm);

/// Largest permitted error from the end face to a mark, mm.
[[nodiscard]] double tolerance_from_end_mm(const RuleClass& rule, double length_mm);

/// The tolerance between marks as relative standard uncertainty, evenly likely within it.
[[nodiscard]] double relative_std_between_marks(const RuleClass& rule, double length_mm);

}  // namespace ridgetally
