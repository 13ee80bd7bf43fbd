#include <gtest/gtest.h>
#include <sysexits.h>

#include <opencv2/core.hpp>

#include "cli/run_program.h"
#include "image/encode.h"

namespace ridgetally::blackbox {
namespace {

using BadFiles = WithFolder;

void expect_one_line(const Finished& finished, int status, const std::string& name) {
    EXPECT_EQ(finished.status, status) << finished.err;
    EXPECT_EQ(finished.out, "");
    const auto lines = lines_of(finished.err);
    ASSERT_FALSE(lines.empty());
    EXPECT_EQ(lines[0].rfind("ridgetally: ", 0), 0U) << finished.err;
    EXPECT_NE(lines[0].find(name), std::string::npos) << finished.err;
    // One line, and at most one more that says what to try.
    EXPECT_LE(lines.size(), 2U) << finished.err;
}

TEST_F(BadFiles, MissingFile) {
    expect_one_line(run({"swatch", path("missing.jpg")}), EX_NOINPUT, "missing.jpg");
    expect_one_line(run({"scale", path("missing.jpg")}), EX_NOINPUT, "missing.jpg");
}

TEST_F(BadFiles, Directory) { expect_one_line(run({"swatch", path("")}), EX_NOINPUT, path("")); }

TEST_F(BadFiles, EmptyFile) {
    write("empty.jpg", "");
    expect_one_line(run({"swatch", "--json", path("empty.jpg")}), EX_DATAERR, "empty.jpg");
}

TEST_F(BadFiles, TextFile) {
    write("letter.jpg", "Dear maker, this is no photo.\n");
    expect_one_line(run({"swatch", path("letter.jpg")}), EX_DATAERR, "letter.jpg");
}

TEST_F(BadFiles, TruncatedJpeg) {
    cv::Mat noise(600, 800, CV_8UC3);
    cv::RNG(7).fill(noise, cv::RNG::UNIFORM, 0, 256);
    const auto whole = encode_jpeg(noise, 90);
    write("half.jpg",
          std::string(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(whole.size() / 2)));
    expect_one_line(run({"swatch", path("half.jpg")}), EX_DATAERR, "half.jpg");
}

TEST_F(BadFiles, EveryCutOfASmallFileEndsWell) {
    const auto whole = encode_png(cv::Mat(600, 800, CV_8UC3, cv::Scalar(60, 90, 120)));
    for (std::size_t length = 0; length < whole.size(); length += 1 + whole.size() / 12) {
        write("cut.png", std::string(whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(length)));
        EXPECT_EQ(run({"swatch", path("cut.png")}).status, EX_DATAERR) << length;
    }
}

TEST_F(BadFiles, TooSmallAPhotoIsRefusedWithTheReason) {
    const auto tiny = encode_png(cv::Mat(40, 40, CV_8UC3, cv::Scalar(60, 90, 120)));
    write("tiny.png", std::string(tiny.begin(), tiny.end()));
    const Finished text = run({"swatch", path("tiny.png")});
    EXPECT_EQ(text.status, 2);
    EXPECT_NE(text.err.find("small"), std::string::npos) << text.err;
    EXPECT_EQ(run({"swatch", "--json", path("tiny.png")}).json()["refusal"]["code"], "too-small");
}

TEST_F(BadFiles, AnEmptyTableIsRefused) {
    const auto plain = encode_png(cv::Mat(900, 1200, CV_8UC3, cv::Scalar(60, 90, 120)));
    write("plain.png", std::string(plain.begin(), plain.end()));
    for (const char* command : {"swatch", "scale"}) {
        const Finished refused = run({command, "--json", path("plain.png")});
        EXPECT_EQ(refused.status, 2) << command;
        const auto refusal = refused.json()["refusal"];
        for (const char* key : {"stage", "code", "message", "hint"}) {
            EXPECT_FALSE(refusal.value(key, "").empty()) << command << " " << key;
        }
        EXPECT_EQ(refused.err, "") << command;
    }
}

}  // namespace
}  // namespace ridgetally::blackbox
