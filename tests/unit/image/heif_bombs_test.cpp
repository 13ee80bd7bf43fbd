#include <gtest/gtest.h>

#include <utility>
#include <vector>

#include "decode_apart.h"
#include "heif_boxes.h"
#include "heif_files.h"
#include "image/decode_heif_boxes.h"

/// HEIF files that declare one thing and hold another: refused before the memory for it is taken.
namespace ridgetally {
namespace {

using namespace files;

constexpr int side_px = 64;

class HeifBombs : public testing::Test {
  protected:
    static void SetUpTestSuite() {
        if (heif_have_encoder_for_format(heif_compression_HEVC) != 0)
            tile = coded_picture(
                heic_file(cv::Mat(side_px, side_px, CV_8UC3, green), heif_orientation_normal, {}));
    }
    void SetUp() override {
        if (tile.data.empty()) GTEST_SKIP() << "this libheif has no HEVC encoder to make a file with";
    }

    static inline HeifItem tile;  ///< 64 x 64 pixels of HEVC, item 1
};

void expect_refused(const Bytes& file, const std::string& code) {
    const Taken taken = decode_apart(file);
    EXPECT_EQ(taken.code, code);
    EXPECT_LT(taken.grown_kib, little_kib);
}

HeifItem numbered(HeifItem item, int id) {
    item.id = id;
    return item;
}

/// Two by two tiles, items 2 to 5, put together as item 1.
HeifContent grid_of_four(const HeifItem& tile, const cv::Size& declared, const cv::Size& canvas) {
    HeifContent content;
    content.items.push_back({.id = 1, .type = "grid", .declared = declared, .data = grid_data(2, 2, canvas)});
    for (int id = 2; id <= 5; ++id) content.items.push_back(numbered(tile, id));
    content.references.push_back({"dimg", 1, {2, 3, 4, 5}});
    return content;
}

TEST_F(HeifBombs, FilesPutTogetherHereAreReadIfTheySayTheTruth) {
    const auto one = decode_photo(heif_file({.items = {tile}}), "", any_size());
    ASSERT_TRUE(one.ok()) << one.refusal().message;
    EXPECT_EQ(one->grey.size(), cv::Size(side_px, side_px));
    EXPECT_LE(difference(one->colour.bgr.at<cv::Vec3b>(30, 30), green), 4);

    const cv::Size four(2 * side_px, 2 * side_px);
    const auto grid = decode_photo(heif_file(grid_of_four(tile, four, four)), "", any_size());
    ASSERT_TRUE(grid.ok()) << grid.refusal().message;
    EXPECT_EQ(grid->grey.size(), four);
    EXPECT_LE(difference(grid->colour.bgr.at<cv::Vec3b>(100, 100), green), 4);
}

TEST_F(HeifBombs, AStreamLargerThanDeclaredIsRefused) {
    expect_refused(heif_file({.items = {coded_as(tile, {10000, 10000})}}), "damaged-photo");
    expect_refused(heif_file({.items = {coded_as(tile, {30000, 30000})}}), "too-large");
}

/// ITU-T H.265, 7.4.3.2.1: at most 16 bits; whole coding blocks; transforms smaller than the least coding
/// block and of 32 at most; no deeper than blocks can be halved. Debian's decoder of HEVC writes a line of
/// its own on standard error for each.
TEST_F(HeifBombs, BlocksAndDepthsThatHEVCDoesNotKnowAreRefusedWithoutAWordOfTheDecoders) {
    const std::vector<std::pair<SequenceNumber, std::uint32_t>> beyond = {
        {SequenceNumber::luma_bits_above_8, 9},
        {SequenceNumber::chroma_bits_above_8, 9},
        {SequenceNumber::log2_least_coding_block_above_3, 4},
        {SequenceNumber::log2_coding_block_range, 7},
        {SequenceNumber::log2_least_transform_block_above_2, 3},
        {SequenceNumber::log2_transform_block_range, 5},
        {SequenceNumber::depth_between_pictures, 5},
        {SequenceNumber::depth_within_picture, 5}};
    for (const auto& [number, value] : beyond) {
        SCOPED_TRACE(static_cast<int>(number));
        const Bytes file = heif_file({.items = {coded_with(tile, number, value)}});
        testing::internal::CaptureStderr();
        const auto photo = decode_photo(file, "", any_size());
        EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
        ASSERT_FALSE(photo.ok());
        EXPECT_EQ(photo.refusal().code, "damaged-photo");
    }
    // Numbers that were put in unchanged in meaning: the same picture is read.
    const auto same = decode_photo(
        heif_file({.items = {coded_with(tile, SequenceNumber::luma_bits_above_8, 0)}}), "", any_size());
    EXPECT_TRUE(same.ok());
}

TEST_F(HeifBombs, ASecondSizeWithinTheDataCounts) {
    const HeifItem large = coded_as(tile, {10000, 10000});
    // The last unit of the configuration that is a sequence parameter set (type 33), put before the slices.
    HeifItem item = tile;
    Bytes sets;
    for (std::size_t i = 0; i + 4 < large.configuration.size(); ++i) {
        if (large.configuration[i] != 33 << 1 || large.configuration[i + 1] != 1) continue;
        const std::size_t size = large.configuration[i - 2] * 256U + large.configuration[i - 1];
        put_big(sets, size, 4);
        const auto begin = large.configuration.begin() + static_cast<std::ptrdiff_t>(i);
        sets.insert(sets.end(), begin, begin + static_cast<std::ptrdiff_t>(size));
        break;
    }
    ASSERT_FALSE(sets.empty());
    item.data.insert(item.data.begin(), sets.begin(), sets.end());
    expect_refused(heif_file({.items = {item}}), "damaged-photo");
}

TEST_F(HeifBombs, AStreamSmallerThanDeclaredIsRefused) {
    HeifItem item = tile;
    item.declared = cv::Size(10000, 10000);
    expect_refused(heif_file({.items = {item}}), "damaged-photo");
}

TEST_F(HeifBombs, MorePicturesInOneStreamThanOneAreRefused) {
    HeifItem item = tile;
    const Bytes once = item.data;
    for (int i = 0; i < 1000; ++i) item.data.insert(item.data.end(), once.begin(), once.end());
    expect_refused(heif_file({.items = {item}}), "damaged-photo");
}

TEST_F(HeifBombs, AGridLargerThanDeclaredIsRefused) {
    const cv::Size four(2 * side_px, 2 * side_px);
    expect_refused(heif_file(grid_of_four(tile, four, {10900, 10900})), "damaged-photo");
    expect_refused(heif_file(grid_of_four(tile, {30000, 30000}, {30000, 30000})), "too-large");
    expect_refused(heif_file(grid_of_four(coded_as(tile, {9000, 9000}), four, four)), "damaged-photo");
}

TEST_F(HeifBombs, AGridOfTilesThatDoNotCoverItIsRefused) {
    expect_refused(heif_file(grid_of_four(tile, {10900, 10900}, {10900, 10900})), "damaged-photo");
}

TEST_F(HeifBombs, TilesOutsideOfTheirGridAreRefused) {
    HeifContent content;
    const cv::Size small(side_px, side_px);
    constexpr int rows = 200, columns = 200;
    content.items = {{.id = 1, .type = "grid", .declared = small, .data = grid_data(rows, columns, small)},
                     numbered(tile, 2)};
    content.references = {{"dimg", 1, std::vector<int>(rows * columns, 2)}};
    expect_refused(heif_file(content), "damaged-photo");
}

TEST_F(HeifBombs, PicturesMadeOfThemselvesAreRefused) {
    HeifItem copy = tile;
    copy.type = "iden";
    expect_refused(heif_file({.items = {copy}, .references = {{"dimg", 1, {1}}}}), "unsupported-photo");
    HeifItem overlay = tile;
    overlay.type = "iovl";
    expect_refused(heif_file({.items = {overlay}, .references = {{"dimg", 1, {1}}}}), "unsupported-photo");

    const cv::Size four(2 * side_px, 2 * side_px);
    HeifContent grid = grid_of_four(tile, four, four);
    grid.references = {{"dimg", 1, {1, 1, 1, 1}}};
    expect_refused(heif_file(grid), "damaged-photo");

    HeifItem veil = numbered(tile, 2), behind = numbered(tile, 3);
    veil.auxiliary = behind.auxiliary = "urn:mpeg:hevc:2015:auxid:1";
    expect_refused(heif_file({.items = {tile, veil, behind},
                              .references = {{"auxl", 2, {1}}, {"auxl", 3, {2}}, {"auxl", 2, {3}}}}),
                   "damaged-photo");
}

TEST_F(HeifBombs, TransparencyLargerThanDeclaredIsRefused) {
    HeifItem veil = numbered(coded_as(tile, {10000, 10000}), 2);
    veil.auxiliary = "urn:mpeg:hevc:2015:auxid:1";
    expect_refused(heif_file({.items = {tile, veil}, .references = {{"auxl", 2, {1}}}}), "damaged-photo");
    // Depth and the like are never decoded.
    veil.auxiliary = "urn:mpeg:hevc:2015:auxid:2";
    EXPECT_EQ(decode_apart(heif_file({.items = {tile, veil}, .references = {{"auxl", 2, {1}}}})).code,
              "read");
}

TEST_F(HeifBombs, ItemsAndBoxesWithoutEndAreRefused) {
    HeifContent content{.items = {tile}};
    for (int id = 2; id < 20000; ++id) content.items.push_back({.id = id, .type = "Exif"});
    expect_refused(heif_file(content), "damaged-photo");

    Bytes file = heif_file({.items = {tile}});
    for (int i = 0; i < 2'000'000; ++i) {
        put_big(file, 8, 4);
        put_big(file, heif::four_cc("free"), 4);
    }
    expect_refused(file, "damaged-photo");
}

TEST_F(HeifBombs, AV1IsNotRead) {
    HeifItem item = tile;
    item.type = "av01";
    expect_refused(heif_file({.items = {item}}), "unsupported-photo");
}

}  // namespace
}  // namespace ridgetally
