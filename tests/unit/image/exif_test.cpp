#include "image/exif.h"

#include <gtest/gtest.h>

#include "core/random.h"
#include "files_of_tests.h"

namespace ridgetally {
namespace {

using namespace files;

TEST(Exif, ReadsBothByteOrdersWithAndWithoutHeader) {
    for (const ByteOrder order : {ByteOrder::little, ByteOrder::big}) {
        Bytes block = exif_block(
            {.orientation = 8, .focal_length_35mm = 52, .width_px = 4032, .height_px = 3024, .order = order});
        for (const bool header : {false, true}) {
            if (header) block.insert(block.begin(), {'E', 'x', 'i', 'f', 0, 0});
            const ExifFacts facts = read_exif(block);
            EXPECT_EQ(facts.orientation, Orientation::left_bottom);
            EXPECT_EQ(facts.focal_length_35mm, 52.0);
            EXPECT_EQ(facts.width_px, 4032.0);
            EXPECT_EQ(facts.height_px, 3024.0);
        }
    }
}

TEST(Exif, AbsentAndImpossibleValuesStayAtTheirDefault) {
    EXPECT_EQ(read_exif({}).orientation, Orientation::top_left);
    for (const std::uint16_t orientation : {0, 9, 77}) {
        const ExifFacts facts = read_exif(exif_block({.orientation = orientation}));
        EXPECT_EQ(facts.orientation, Orientation::top_left);
        EXPECT_FALSE(facts.focal_length_35mm);
    }
    // CIPA DC-008, FocalLengthIn35mmFilm: 0 means unknown.
    EXPECT_FALSE(read_exif(exif_block({.focal_length_35mm = 0})).focal_length_35mm);
}

TEST(Exif, EveryCutAndRandomDamageIsHarmless) {
    const Bytes whole =
        exif_block({.orientation = 6, .focal_length_35mm = 27, .width_px = 10, .height_px = 20});
    for (std::size_t size = 0; size < whole.size(); ++size) {
        const auto facts = read_exif({whole.data(), size});
        EXPECT_TRUE(!facts.focal_length_35mm || *facts.focal_length_35mm == 27.0) << size;
    }
    Random random(3);
    for (int trial = 0; trial < 3000; ++trial) {
        Bytes block = whole;
        for (int i = 0; i < 3; ++i)
            block[static_cast<std::size_t>(random.whole(0, static_cast<int>(block.size()) - 1))] =
                static_cast<std::uint8_t>(random.whole(0, 255));
        const int orientation = static_cast<int>(read_exif(block).orientation);
        ASSERT_TRUE(orientation >= 1 && orientation <= 8);
    }
}

TEST(Exif, TheFocalLengthOfACroppedPictureIsNotKnown) {
    const ExifFacts facts =
        read_exif(exif_block({.focal_length_35mm = 26, .width_px = 4032, .height_px = 3024}));
    EXPECT_EQ(focal_length_of_whole_frame(facts, 4032, 3024), 26.0);
    EXPECT_EQ(focal_length_of_whole_frame(facts, 1008, 756), 26.0) << "made smaller";
    EXPECT_EQ(focal_length_of_whole_frame(facts, 1001, 751), 26.0) << "made smaller and rounded";
    EXPECT_EQ(focal_length_of_whole_frame(facts, 3024, 4032), 26.0) << "turned";
    EXPECT_FALSE(focal_length_of_whole_frame(facts, 3024, 3024)) << "cropped to a square";
    const ExifFacts no_size = read_exif(exif_block({.focal_length_35mm = 26}));
    EXPECT_EQ(focal_length_of_whole_frame(no_size, 3024, 3024), 26.0);
}

}  // namespace
}  // namespace ridgetally
