#include <gtest/gtest.h>
#include <sysexits.h>

#include "cli/exit_status.h"

namespace ridgetally {
namespace {

// The system's own header is the reference (4.3BSD sysexits.h).
TEST(ExitStatus, NumbersAreThoseOfTheSystem) {
    EXPECT_EQ(static_cast<int>(ExitStatus::ok), EX_OK);
    EXPECT_EQ(static_cast<int>(ExitStatus::usage), EX_USAGE);
    EXPECT_EQ(static_cast<int>(ExitStatus::bad_data), EX_DATAERR);
    EXPECT_EQ(static_cast<int>(ExitStatus::no_input), EX_NOINPUT);
    EXPECT_EQ(static_cast<int>(ExitStatus::internal), EX_SOFTWARE);
    EXPECT_EQ(static_cast<int>(ExitStatus::io), EX_IOERR);
}

TEST(ExitStatus, TellsFilesThatAreNoPhotosFromPhotosThatCannotBeMeasured) {
    EXPECT_EQ(status_of({"photo", "no-input", "", ""}), ExitStatus::no_input);
    EXPECT_EQ(status_of({"photo", "damaged-photo", "", ""}), ExitStatus::bad_data);
    EXPECT_EQ(status_of({"photo", "not-a-photo", "", ""}), ExitStatus::bad_data);
    EXPECT_EQ(status_of({"photo", "io", "", ""}), ExitStatus::io);
    EXPECT_EQ(status_of({"photo", "too-small", "", ""}), ExitStatus::refused);
    EXPECT_EQ(status_of({"scale", "no-ruler", "", ""}), ExitStatus::refused);
    EXPECT_EQ(status_of({"scale", "unknown-reference", "", ""}), ExitStatus::usage);
}

TEST(ExitStatus, TheWorseOfTwoWins) {
    EXPECT_EQ(worse_of(ExitStatus::ok, ExitStatus::refused), ExitStatus::refused);
    EXPECT_EQ(worse_of(ExitStatus::bad_data, ExitStatus::refused), ExitStatus::bad_data);
    EXPECT_EQ(worse_of(ExitStatus::io, ExitStatus::no_input), ExitStatus::io);
    EXPECT_EQ(worse_of(ExitStatus::io, ExitStatus::internal), ExitStatus::internal);
    EXPECT_EQ(worse_of(ExitStatus::ok, ExitStatus::ok), ExitStatus::ok);
}

}  // namespace
}  // namespace ridgetally
