#pragma once

#include <cstdlib>

#include "cli/run_program.h"

namespace ridgetally::blackbox {

/// A test with a record of its own in its own folder. The yarns are invented.
class WithYarns : public WithFolder {
  protected:
    void SetUp() override {
        WithFolder::SetUp();
        ::setenv("RIDGETALLY_RECORD", path("record.db").c_str(), 1);
    }
    void TearDown() override {
        ::unsetenv("RIDGETALLY_RECORD");
        WithFolder::TearDown();
    }
    /// `ridgetally yarn ...`
    static Finished yarn(std::vector<std::string> arguments, Output output = Output::captured) {
        arguments.insert(arguments.begin(), "yarn");
        return run(arguments, output);
    }
    /// The same, and it must end well.
    static std::string done(const std::vector<std::string>& arguments) {
        const Finished finished = yarn(arguments);
        EXPECT_EQ(finished.status, 0) << testing::PrintToString(arguments) << finished.err;
        EXPECT_EQ(finished.err, "");
        return finished.out;
    }
};

inline const std::string moss = "Fennelwick DK, Moss";

}  // namespace ridgetally::blackbox
