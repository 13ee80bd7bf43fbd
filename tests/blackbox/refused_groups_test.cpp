#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>

#include "blackbox/measured_shot.h"
#include "synthetic/refusals.h"

namespace ridgetally::blackbox {
namespace {

/// Photos of one kind that have no right answer: each must be refused, at one of these stages and for one of
/// these reasons.
struct RefusedGroup {
    const char* kind;
    std::vector<std::string> reasons;
    double megapixels = 1.2;
    std::uint64_t photos = 2;
};

void PrintTo(const RefusedGroup& group, std::ostream* out) { *out << group.kind; }

class Refused : public testing::TestWithParam<RefusedGroup> {};

TEST_P(Refused, ForTheRightReason) {
    const RefusedGroup& group = GetParam();
    synthetic::Variety variety;
    variety.megapixels = group.megapixels;
    const bool about_ruler = group.reasons.front().starts_with("scale/");
    std::uint64_t for_the_reason = 0;
    for (std::uint64_t seed = 501; seed < 501 + group.photos; ++seed) {
        const Trial trial =
            trial_of(seed, synthetic::random_refusal(seed, group.kind, variety), Told::nothing);
        ASSERT_TRUE(trial.refusal) << group.kind << ", seed " << seed << ": a number came out";
        const std::string reason = trial.refusal->stage + "/" + trial.refusal->code;
        EXPECT_FALSE(trial.refusal->message.empty());
        ASSERT_FALSE(trial.refusal->hint.empty()) << reason;  // what to change in the photo
        // One style for all: it goes on after "try: ".
        EXPECT_TRUE(std::islower(static_cast<unsigned char>(trial.refusal->hint.front())))
            << trial.refusal->hint;
        // A ruler that was drawn too small to read says nothing about what lies beside it.
        if (!about_ruler && trial.refusal->stage == "scale") continue;
        EXPECT_EQ(std::count(group.reasons.begin(), group.reasons.end(), reason), 1)
            << group.kind << ", seed " << seed << ": " << reason;
        ++for_the_reason;
    }
    EXPECT_GE(for_the_reason, group.photos / 2) << group.kind;
}

const std::vector<std::string> no_ruler{"scale/no-ruler", "scale/ruler-unreadable"};
/// Evenly spaced marks of no known unit: to ask for the unit is right too.
const std::vector<std::string> no_unit{"scale/no-ruler", "scale/ruler-unreadable", "scale/unit-undecided"};
const std::vector<std::string> no_stitches{"fabric/no-fabric", "fabric/no-stitches", "lattice/no-texture"};

INSTANTIATE_TEST_SUITE_P(
    Photos, Refused,
    testing::Values(RefusedGroup{"no-ruler", {"scale/no-ruler"}}, RefusedGroup{"unreadable-marks", no_ruler},
                    RefusedGroup{"no-fabric", no_stitches},
                    RefusedGroup{"two-fabrics", {"fabric/two-fabrics"}, 2.5, 12},
                    // Things with marks in the ruler's place.
                    RefusedGroup{"fabric-and-grid", no_unit}, RefusedGroup{"fabric-and-comb", no_unit},
                    RefusedGroup{"fabric-and-barcode", no_ruler}, RefusedGroup{"fabric-and-zip", no_unit},
                    RefusedGroup{"fabric-and-keyboard", no_ruler}),
    [](const auto& group) { return as_test_name(group.param.kind); });

}  // namespace
}  // namespace ridgetally::blackbox
