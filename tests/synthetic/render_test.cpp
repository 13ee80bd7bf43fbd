#include "synthetic/render.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "image/photo.h"
#include "synthetic/refusals.h"
#include "synthetic/truth_json.h"

namespace ridgetally::synthetic {
namespace {

Variety small() {
    Variety v;
    v.megapixels = 0.3;
    return v;
}

TEST(Render, SameSeedSameBytes) {
    const Shot one = random_swatch(42, small()), again = random_swatch(42, small());
    EXPECT_EQ(jpeg_bytes(render(one.scene).bgr, one.jpeg), jpeg_bytes(render(again.scene).bgr, again.jpeg));
}

TEST(Render, OtherSeedOtherPicture) {
    const Shot one = random_swatch(42, small()), other = random_swatch(43, small());
    EXPECT_NE(jpeg_bytes(render(one.scene).bgr, one.jpeg), jpeg_bytes(render(other.scene).bgr, other.jpeg));
}

TEST(Render, TruthAloneIsTheTruthOfThePicture) {
    const Shot shot = random_swatch(9, small());
    const Truth drawn = render(shot.scene).truth, told = truth_of(shot.scene);
    EXPECT_EQ(drawn.fabrics.front().stitch_pitch_mm, told.fabrics.front().stitch_pitch_mm);
    ASSERT_EQ(drawn.segments.size(), told.segments.size());
    EXPECT_EQ(drawn.segments.front().p_px, told.segments.front().p_px);
}

TEST(Render, FabricStandsOutFromTheTable) {
    Scene scene = random_swatch(12, small()).scene;
    const Picture with = render(scene);
    scene.fabrics.clear();
    const Picture without = render(scene);
    cv::Mat changed;
    cv::absdiff(with.bgr, without.bgr, changed);
    const auto& outline = with.truth.fabric_outlines_px.front();
    cv::Point2d middle(0, 0);
    for (const auto& p : outline) middle += p / static_cast<double>(outline.size());
    const cv::Rect patch(cvRound(middle.x) - 20, cvRound(middle.y) - 20, 40, 40);
    EXPECT_GT(cv::mean(changed(patch))[1], 10.0);
}

TEST(Render, NoPictureWithoutPixels) {
    Scene scene;
    scene.camera.width_px = 0;
    EXPECT_THROW((void)render(scene), std::invalid_argument);
}

TEST(RandomSwatch, TruthIsPlausibleAndComplete) {
    for (std::uint64_t seed = 0; seed < 150; ++seed) {
        const Shot shot = random_swatch(seed, small());
        const Truth truth = truth_of(shot.scene);
        const FabricTruth& f = truth.fabrics.front();
        EXPECT_GT(f.stitches_per_10cm(), 8.0) << seed;
        EXPECT_LT(f.stitches_per_10cm(), 40.0) << seed;
        const double ratio = f.row_pitch_mm / f.stitch_pitch_mm;
        EXPECT_GT(ratio, 0.6) << seed;
        EXPECT_LT(ratio, 3.0) << seed;
        EXPECT_LE(truth.tilt_deg, small().max_tilt_deg + 1e-9) << seed;
        ASSERT_FALSE(truth.segments.empty()) << seed;
        for (const auto& s : truth.segments)
            for (const auto& p : {s.p_px, s.q_px}) {
                EXPECT_TRUE(
                    cv::Rect2d(0, 0, shot.scene.camera.width_px, shot.scene.camera.height_px).contains(p))
                    << seed;
            }
        EXPECT_EQ(shot.partial, truth.fabric_in_frame.front() < 0.95) << seed;
    }
}

TEST(RandomSwatch, DrawsEveryStitchRulerAndLight) {
    std::vector<int> families(stitch_family_count), rulers(6), worked(2), inch(2);
    for (std::uint64_t seed = 0; seed < 300; ++seed) {
        const Scene scene = random_swatch(seed, small()).scene;
        ++families[static_cast<std::size_t>(scene.fabrics.front().family)];
        ++rulers[static_cast<std::size_t>(scene.rulers.front().make)];
        ++worked[static_cast<std::size_t>(scene.fabrics.front().worked)];
        ++inch[scene.rulers.front().upper->inch ? 1 : 0];
    }
    for (const auto family : {StitchFamily::sc, StitchFamily::sc_blo, StitchFamily::hdc, StitchFamily::dc,
                              StitchFamily::tr, StitchFamily::stockinette})
        EXPECT_GE(families[static_cast<std::size_t>(family)], 5);
    for (const int n : rulers) EXPECT_GE(n, 10);
    for (const int n : worked) EXPECT_GE(n, 50);
    for (const int n : inch) EXPECT_GE(n, 30);
}

TEST(Refusals, EveryKindLacksWhatItsNameSays) {
    for (const auto& kind : refusal_kinds()) {
        const Shot shot = random_refusal(3, kind, small());
        EXPECT_EQ(shot.kind, kind);
        const bool fabric = shot.scene.fabrics.size() == 1, ruler = shot.scene.rulers.size() == 1;
        EXPECT_FALSE(fabric && ruler && kind != "unreadable-marks") << kind;
        EXPECT_EQ(cases_of("x", "x.jpg", shot, truth_of(shot.scene)).front().at("expect"), "refusal");
    }
    EXPECT_THROW((void)random_refusal(3, "no such thing", small()), std::invalid_argument);
}

/// The program's own reader turns every stored orientation upright again and reads the focal length
/// (EXIF 2.32, CIPA DC-008, tags 0x0112 and 0xA405).
TEST(JpegFile, EveryOrientationReadsUpright) {
    cv::Mat3b picture(48, 64, cv::Vec3b(200, 200, 200));
    picture(cv::Rect(0, 0, 16, 16)).setTo(cv::Scalar(20, 20, 220));  // red in the top left
    for (int orientation = 1; orientation <= 8; ++orientation) {
        JpegOptions options;
        options.orientation = orientation;
        options.focal35_mm = 27.0;
        options.quality = 95;
        ReadPhotoOptions reading;
        reading.min_megapixels = 0.0;
        reading.min_side_px = 1;
        const auto photo = decode_photo(jpeg_bytes(picture, options), "corner.jpg", reading);
        ASSERT_TRUE(photo.ok()) << orientation;
        EXPECT_EQ(photo->colour.bgr.size(), picture.size()) << orientation;
        const cv::Vec3b corner = photo->colour.bgr.at<cv::Vec3b>(6, 6),
                        far = photo->colour.bgr.at<cv::Vec3b>(40, 58);
        EXPECT_GT(corner[2], corner[0] + 100) << orientation;
        EXPECT_LT(std::abs(far[2] - far[0]), 30) << orientation;
        EXPECT_EQ(photo->focal_length_35mm, 27.0) << orientation;
    }
}

}  // namespace
}  // namespace ridgetally::synthetic
