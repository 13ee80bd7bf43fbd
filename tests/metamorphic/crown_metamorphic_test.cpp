#include <gtest/gtest.h>

#include "blackbox/measured_shot.h"
#include "metamorphic/changes.h"
#include "synthetic/crown_scene.h"

namespace ridgetally::blackbox {
namespace {

/// Neither excludes what the other found.
void expect_counts_agree(const CountedWhole& one, const CountedWhole& other, const std::string& what) {
    EXPECT_LE(one.least, other.most) << what << ": " << one.count.value << " and " << other.count.value;
    EXPECT_LE(other.least, one.most) << what << ": " << one.count.value << " and " << other.count.value;
}

synthetic::Shot good_crown(std::uint64_t seed, StitchFamily family) {
    return in_good_light(synthetic::random_crown(seed, even_work(family)));
}

class CrownMetamorphic : public testing::TestWithParam<StitchFamily> {};

TEST_P(CrownMetamorphic, MillimetresAndCountsStayTheSame) {
    const synthetic::Shot shot = good_crown(31, GetParam());
    const cv::Mat picture = synthetic::render(shot.scene).bgr;
    const auto plain = measured_crown(through_a_file(picture, shot), shot);
    ASSERT_TRUE(plain.ok()) << plain.refusal().message;
    for (const Change& change : changes()) {
        const auto again = measured_crown(through_a_file(change.apply(picture), shot), shot);
        ASSERT_TRUE(again.ok()) << change.name << ": " << again.refusal().message;
        expect_agreement(plain->diameter_mm, again->diameter_mm, std::string(change.name) + ", diameter");
        if (plain->rounds && again->rounds)
            expect_counts_agree(*plain->rounds, *again->rounds, std::string(change.name) + ", rounds");
        if (plain->last_round_stitches && again->last_round_stitches)
            expect_counts_agree(*plain->last_round_stitches, *again->last_round_stitches,
                                std::string(change.name) + ", stitches");
    }
}

INSTANTIATE_TEST_SUITE_P(Stitches, CrownMetamorphic, testing::Values(StitchFamily::sc, StitchFamily::hdc),
                         [](const auto& which) {
                             return std::string(which.param == StitchFamily::sc ? "sc" : "hdc");
                         });

}  // namespace
}  // namespace ridgetally::blackbox
