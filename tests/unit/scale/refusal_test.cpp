#include <gtest/gtest.h>

#include <cmath>

#include "core/random.h"
#include "scale/read_ruler.h"
#include "unit/scale/drawn_ruler.h"

namespace ridgetally {
namespace {

using drawn::Rule;
using drawn::View;

void expect_refused(const Photo& photo) {
    for (const auto told :
         {std::optional<LengthUnit>{}, std::optional{LengthUnit::mm}, std::optional{LengthUnit::inch}}) {
        RulerOptions options;
        options.told_unit = told;
        const auto read = read_ruler(photo, options);
        EXPECT_FALSE(read.ok()) << "read a scale of " << read->lines.front().spacing_mm << " mm from "
                                << read->lines.front().marks.size() << " marks";
        if (read.ok()) continue;
        EXPECT_EQ(read.refusal().stage, "scale");
        EXPECT_FALSE(read.refusal().hint.empty());
    }
}

TEST(RulerRefused, CombsOfEqualTeeth) {
    for (const double px : {3.0, 5.0, 9.0}) {
        Rule comb;
        comb.all_alike = true;
        comb.numerals = false;
        View view;
        view.px_per_mm = px;
        view.turn_deg = 17.0;
        expect_refused(drawn::photo_of(comb, view));
    }
}

TEST(RulerRefused, ACombIsCalledUnreadable) {
    Rule comb;
    comb.all_alike = true;
    comb.numerals = false;
    const auto read = read_ruler(drawn::photo_of(comb, View{}));
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.refusal().code, "ruler-unreadable");
}

TEST(RulerRefused, Barcodes) {
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        Random random(seed);
        std::vector<bool> bars;
        for (int i = 0; i < 190; ++i) bars.push_back(random.uniform(0.0, 1.0) < 0.5);
        const double module = 2.0 + static_cast<double>(seed % 4);
        const double slant = 0.1 * static_cast<double>(seed);
        View view;
        view.seed = seed;
        expect_refused(drawn::photo_of_pattern(view, [&](double x, double y) {
            const double u = (x - 450) * std::cos(slant) + (y - 300) * std::sin(slant);
            const double v = (y - 300) * std::cos(slant) - (x - 450) * std::sin(slant);
            const int i = static_cast<int>(std::floor(u / module)) + 95;
            if (i < 0 || i >= 190 || std::abs(v) > 70.0) return 225.0;
            return bars[static_cast<std::size_t>(i)] ? 30.0 : 225.0;
        }));
    }
}

TEST(RulerRefused, ChequersStripesAndGrids) {
    for (const double pitch : {6.0, 11.0, 24.0}) {
        SCOPED_TRACE(pitch);
        const View view;
        const auto cell = [pitch](double v) { return static_cast<long>(std::floor(v / pitch)); };
        expect_refused(drawn::photo_of_pattern(
            view, [&](double x, double y) { return (cell(x) + cell(y)) % 2 == 0 ? 60.0 : 200.0; }));
        expect_refused(drawn::photo_of_pattern(
            view, [&](double x, double y) { return cell(x + 0.3 * y) % 2 == 0 ? 90.0 : 180.0; }));
        expect_refused(drawn::photo_of_pattern(view, [&](double x, double y) {
            const bool line =
                std::fmod(x + 1000 * pitch, pitch) < 1.5 || std::fmod(y + 1000 * pitch, pitch) < 1.5;
            return line ? 120.0 : 230.0;
        }));
    }
}

TEST(RulerRefused, WoodGrain) {
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        Random random(seed);
        std::vector<double> waves;
        for (int i = 0; i < 24; ++i) waves.push_back(random.uniform(0.05, 1.2));
        View view;
        view.seed = seed;
        expect_refused(drawn::photo_of_pattern(view, [&](double x, double y) {
            double sum = 150.0;
            const double bent = y + 6.0 * std::sin(0.004 * x + static_cast<double>(seed));
            for (std::size_t i = 0; i < waves.size(); ++i)
                sum += 6.0 * std::sin(waves[i] * bent + 1.7 * static_cast<double>(i));
            return sum;
        }));
    }
}

TEST(RulerRefused, RowsOfStitchesAndLoops) {
    // V-shaped legs in rows, every second row the other way round: what fabric looks like from afar.
    for (const double pitch : {14.0, 22.0, 35.0}) {
        SCOPED_TRACE(pitch);
        const View view;
        expect_refused(drawn::photo_of_pattern(view, [&](double x, double y) {
            const double row = std::floor(y / pitch);
            const double v = y / pitch - row - 0.5;
            const double way = static_cast<long>(row) % 2 == 0 ? 1.0 : -1.0;
            const double u = std::fmod(x / pitch + 100.0, 1.0) - 0.5;
            const double leg = std::abs(std::abs(u) - 0.25 - way * 0.2 * v);
            return 70.0 + 120.0 * std::exp(-60.0 * leg * leg);
        }));
    }
}

TEST(RulerRefused, NothingAtAll) {
    View view;
    view.noise = 4.0;
    const auto read = read_ruler(drawn::photo_of_pattern(view, [](double, double) { return 140.0; }));
    ASSERT_FALSE(read.ok());
    EXPECT_EQ(read.refusal().code, "no-ruler");
}

TEST(RulerRefused, MarksBlurredAway) {
    View view;
    view.px_per_mm = 3.0;
    view.blur_px = 3.5;
    expect_refused(drawn::photo_of(Rule{}, view));
}

}  // namespace
}  // namespace ridgetally
