#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "advice/maker_gauge.h"

namespace ridgetally {

/// "crochet", "knit".
[[nodiscard]] std::string_view key_of(Craft craft);

/// The gauge printed on the ball band. In the middle yarn weights crochet takes 0.57 to 0.77 times as many
/// stitches as knitting (Craft Yarn Council, Standard Yarn Weight System), so the two are never mixed. Craft,
/// stitches and span are told together or not at all.
struct BandGauge {
    std::optional<Craft> craft;
    std::optional<double> stitches;
    std::optional<double> rows;
    std::optional<double> span_mm;  ///< what the stitches and rows are counted over: 100, or 101.6 for 4 in
    std::optional<double> tool_mm;  ///< hook or needle

    bool operator==(const BandGauge&) const = default;
};

/// A yarn in stock. Only the name must be told; text that was not told is empty.
struct Yarn {
    std::string name;                    ///< UTF-8, unique in the record byte for byte
    std::optional<int> weight_category;  ///< 0 to 7 (Craft Yarn Council, Standard Yarn Weight System)
    std::string fibre;
    std::string colour;
    std::string dye_lot;
    std::optional<double> ball_g;  ///< mass of one ball
    std::optional<double> ball_m;  ///< length of yarn on one ball, metres
    std::optional<double> balls;   ///< balls left, with their fraction
    BandGauge band;
    std::string notes;
    std::string added;  ///< day, ISO 8601: "2026-11-25"

    bool operator==(const Yarn&) const = default;
};

/// A yarn of the record, with the number it has there.
struct StoredYarn {
    std::int64_t id = 0;
    Yarn yarn;
};

/// What is left, in grams and metres; none where the balls or what is on one were not told.
[[nodiscard]] std::optional<double> grams_left(const Yarn& yarn);
[[nodiscard]] std::optional<double> metres_left(const Yarn& yarn);

/// An amount of yarn as people tell it.
enum class AmountUnit { balls, grams, metres };
struct Amount {
    double value = 0.0;
    AmountUnit unit = AmountUnit::balls;
};

/// The amount in balls of this yarn; none where what is on one ball was not told.
[[nodiscard]] std::optional<double> in_balls(const Amount& amount, const Yarn& yarn);

}  // namespace ridgetally
