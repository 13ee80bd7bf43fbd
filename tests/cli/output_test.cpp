#include <gtest/gtest.h>
#include <sysexits.h>

#include "cli/run_program.h"

namespace ridgetally::blackbox {
namespace {

class BrokenOutput : public testing::TestWithParam<Output> {};

TEST_P(BrokenOutput, EndsWithTheStatusForInputAndOutput) {
    const std::vector<std::string> measure = {"swatch",   "--stitch", "sc",
                                              "--worked", "flat",     sample("brimful-moss.jpg")};
    auto json = measure;
    json.emplace_back("--json");
    auto batch = measure;
    batch.emplace_back("--batch");
    const std::vector<std::vector<std::string>> commands = {
        {"--help"},
        {"--version"},
        measure,
        json,
        batch,
        {"swatch", "--json", sample("forgot-the-ruler.jpg")},
        {"scale", sample("brimful-moss.jpg")}};
    for (const auto& command : commands) {
        const Finished finished = run(command, GetParam());
        EXPECT_EQ(finished.status, EX_IOERR) << testing::PrintToString(command) << finished.err;
        EXPECT_EQ(lines_of(finished.err).size(), 1U) << testing::PrintToString(command) << finished.err;
    }
}

INSTANTIATE_TEST_SUITE_P(Program, BrokenOutput,
                         testing::Values(Output::closed, Output::full_disk, Output::reader_gone));

}  // namespace
}  // namespace ridgetally::blackbox
