#include "pipeline/recogniser_on_demand.h"

#include <gtest/gtest.h>

#include <thread>
#include <vector>

namespace ridgetally {
namespace {

TEST(RecogniserOnDemand, IsNullWhereThereAreNoWeights) {
    const RecogniserOnDemand missing("no/such/folder");
    EXPECT_EQ(missing.get(), nullptr);
    EXPECT_EQ(missing.get(), nullptr);
    EXPECT_EQ(missing.namer(), nullptr);
}

TEST(RecogniserOnDemand, LoadsOnceForAllCopiesAndThreads) {
    const RecogniserOnDemand recogniser(std::filesystem::path(RIDGETALLY_SOURCE_DIR) / "models" /
                                        "recogniser");
    std::vector<const Recogniser*> seen(4, nullptr);
    std::vector<std::thread> threads;
    for (auto& slot : seen) threads.emplace_back([&slot, copy = recogniser] { slot = copy.get(); });
    for (auto& thread : threads) thread.join();
    for (const auto* each : seen) {
        EXPECT_NE(each, nullptr);
        EXPECT_EQ(each, recogniser.get());
    }
    EXPECT_NE(recogniser.namer(), nullptr);
    EXPECT_EQ(recogniser.namer(), RecogniserOnDemand(recogniser).namer());
}

}  // namespace
}  // namespace ridgetally
