#include "rectify/match_pose.h"

#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "unit/rectify/coverage.h"
#include "unit/rectify/made_up_camera.h"

namespace ridgetally {
namespace {

using testing::CameraPlace;
using testing::Coverage;

std::vector<PlaneMatch> corners_of_card(const PhotoFromObject& truth) {
    std::vector<PlaneMatch> matches;
    for (const auto& corner : {ObjectPoint{0, 0}, {85.60, 0}, {85.60, 53.98}, {0, 53.98}})
        matches.push_back({truth(corner), corner});
    return matches;
}

// Against OpenCV's getPerspectiveTransform.
TEST(HomographyThrough, AgreesWithTheLibrary) {
    CameraPlace place;
    place.tilt_along_deg = 13.0;
    place.tilt_across_deg = 8.0;
    place.turn_deg = 70.0;
    const auto matches = corners_of_card(photo_from_plane(testing::camera_at(place), 0.0));
    std::vector<cv::Point2f> from, to;
    for (const auto& m : matches) {
        from.emplace_back(static_cast<float>(m.object_mm.x), static_cast<float>(m.object_mm.y));
        to.emplace_back(static_cast<float>(m.photo_px.x), static_cast<float>(m.photo_px.y));
    }
    const cv::Matx33d library = cv::getPerspectiveTransform(from, to);
    const auto own = homography_through(matches);
    ASSERT_TRUE(own);
    for (int i = 0; i < 9; ++i) {
        const double a = own->matrix[static_cast<std::size_t>(i)] / own->matrix[8];
        EXPECT_NEAR(a, library.val[i], 1e-3 * std::max(1.0, std::abs(library.val[i])));
    }
}

TEST(HomographyThrough, DegeneratePointsHaveNone) {
    std::vector<PlaneMatch> line;
    for (int i = 0; i < 5; ++i) line.push_back({{10.0 * i, 5.0 * i}, {1.0 * i, 2.0 * i}});
    EXPECT_FALSE(homography_through(line));
    EXPECT_FALSE(homography_through({}));
}

TEST(PoseOf, ExactCornersGiveTheCameraBack) {
    CameraPlace place;
    place.tilt_along_deg = -9.0;
    place.tilt_across_deg = 14.0;
    place.turn_deg = -120.0;
    const CameraPose camera = testing::camera_at(place);
    PosePriors priors;
    priors.focal_px = camera.focal_px;
    priors.principal_px = camera.principal_px;
    const auto homography = homography_through(corners_of_card(photo_from_plane(camera, 0.0)));
    ASSERT_TRUE(homography);
    const auto pose = pose_of(*homography, priors);
    ASSERT_TRUE(pose);
    EXPECT_NEAR(tilt_deg(*pose), tilt_deg(camera), 1e-5);
    EXPECT_NEAR(pose->translation_mm[2], camera.translation_mm[2], 1e-4);
}

// Monte Carlo as for rulers: cards within the shape law they are given, corners 0.3 px off, tilts and focal
// lengths from the priors.
TEST(PoseFromMatches, StatedIntervalsHoldForCards) {
    const RectifyOptions laws;
    Random random(77);
    Coverage scale, tilt;
    for (int i = 0; i < 300; ++i) {
        CameraPlace place;
        place.distance_mm = 300.0;
        place.anchor_mm = {42.8, 27.0};
        place.tilt_along_deg = random.normal(0.0, laws.tilt_prior_std_deg);
        place.tilt_across_deg = random.normal(0.0, laws.tilt_prior_std_deg);
        place.turn_deg = random.uniform(0.0, 360.0);
        place.focal_35mm = 26.0 * std::exp(random.normal(0.0, laws.exif_focal_relative_std));
        place.distance_mm *= place.focal_35mm / 26.0;
        const CameraPose camera = testing::camera_at(place);
        const auto truth = photo_from_plane(camera, 0.0);
        ScaleReference card;
        card.kind = "id1-card";
        card.object_relative_std = 0.0008;
        card.matches = corners_of_card(truth);
        const double wide = random.normal(0.0, 0.0008), high = random.normal(0.0, 0.0008);
        for (auto& m : card.matches) {
            m.photo_px.x += random.normal(0.0, 0.3);
            m.photo_px.y += random.normal(0.0, 0.3);
            m.object_mm.x *= 1.0 + wide;
            m.object_mm.y *= 1.0 + high;
        }
        const auto r = rectify(card, place.photo_size, testing::focal_of(CameraPlace{}));
        ASSERT_TRUE(r.ok());
        const PhotoPoint at = truth(ObjectPoint{40.0, 110.0});
        scale.count(testing::length_error(*r, truth, at, 1, 0, 0.0),
                    testing::combined(scale_budget_at(*r, at, 0.0, 0.0, 0.0)));
        tilt.count(r->tilt_deg - tilt_deg(camera), r->tilt_std_deg);
    }
    EXPECT_GE(scale.part95(), 0.91);
    EXPECT_LE(scale.part95(), 0.995);
    EXPECT_GE(tilt.part95(), 0.91);
    EXPECT_LT(scale.rms(), 0.012);
}

}  // namespace
}  // namespace ridgetally
