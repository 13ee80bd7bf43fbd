#include "core/outcome.h"

#include <gtest/gtest.h>

namespace ridgetally {
namespace {

TEST(Outcome, HoldsAValueOrARefusal) {
    const Outcome<int> measured = 7;
    const Outcome<int> refused =
        Refusal{"scale", "no-ruler", "no ruler found", "lay a ruler beside the swatch"};
    ASSERT_TRUE(measured.ok());
    EXPECT_EQ(*measured, 7);
    ASSERT_FALSE(refused.ok());
    EXPECT_EQ(refused.refusal().code, "no-ruler");
}

TEST(Outcome, AskingForWhatIsNotThereIsMisuse) {
    const Outcome<int> measured = 7;
    const Outcome<int> refused = Refusal{"scale", "no-ruler", "", ""};
    EXPECT_THROW((void)refused.value(), std::logic_error);
    EXPECT_THROW((void)measured.refusal(), std::logic_error);
}

}  // namespace
}  // namespace ridgetally
