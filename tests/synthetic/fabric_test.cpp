#include <gtest/gtest.h>

#include <opencv2/imgproc.hpp>

#include "synthetic/fabric_tubes.h"
#include "synthetic/render.h"
#include "synthetic/stitch_paths.h"

namespace ridgetally::synthetic {
namespace {

Fabric even_fabric(StitchFamily family, Worked worked) {
    Fabric f;
    f.family = family;
    f.worked = worked;
    f.stitches = 20;
    f.rows = 20;
    f.stitch_pitch_mm = 5.0;
    f.row_pitch_mm = 4.6;
    f.unevenness = 0.0;
    f.warp_mm = 0.0;
    f.tail = false;
    f.lean = 0.0;
    f.yarn.heather = 0.0;
    f.yarn.fuzz = 0.0;
    return f;
}

TEST(FabricGrid, EvenFabricHasExactlyTheGaugeAskedFor) {
    Fabric f = even_fabric(StitchFamily::sc, Worked::flat);
    f.angle_deg = 33.0;
    const FabricTruth t = FabricGrid(f).truth();
    EXPECT_NEAR(t.stitches_per_10cm(), 20.0, 1e-9);
    EXPECT_NEAR(t.rows_per_10cm(), 100.0 / 4.6, 1e-9);
    EXPECT_NEAR(t.width_mm, 100.0, 1e-9);
    EXPECT_NEAR(t.height_mm, 92.0, 1e-9);
}

TEST(FabricGrid, TruthIsTheMeanOfWhatWasLaid) {
    Fabric f = even_fabric(StitchFamily::sc, Worked::flat);
    f.unevenness = 0.15;
    f.warp_mm = 2.0;
    f.taper = 0.02;
    const FabricGrid grid(f);
    double along = 0.0, across = 0.0;
    for (int j = 0; j < f.rows; ++j)
        for (int i = 0; i < f.stitches; ++i) {
            along += grid.at(i + 1, j + 0.5).x - grid.at(i, j + 0.5).x;
            across += grid.at(i + 0.5, j).y - grid.at(i + 0.5, j + 1).y;
        }
    const double n = f.rows * f.stitches;
    EXPECT_NEAR(grid.truth().stitch_pitch_mm, along / n, 1e-9);
    EXPECT_NEAR(grid.truth().row_pitch_mm, across / n, 1e-9);
    EXPECT_NE(grid.truth().stitch_pitch_mm, f.stitch_pitch_mm);
}

TEST(FabricTubes, EveryStitchOfEveryRowIsWorked) {
    for (const auto family : {StitchFamily::sc, StitchFamily::hdc, StitchFamily::dc, StitchFamily::tr}) {
        Fabric f = even_fabric(family, Worked::round);
        const std::size_t each = stitch_strands(family, Face::front, LoopRidge::facing, f.shape).size();
        const std::size_t foundation = 2;
        EXPECT_EQ(fabric_tubes(f, 0, 0.0).size(), (each * 20 + foundation) * 20);
    }
}

TEST(FabricTubes, FabricLiesOnTheTableTwoYarnsThick) {
    for (const auto family : {StitchFamily::sc, StitchFamily::sc_blo, StitchFamily::hdc, StitchFamily::dc,
                              StitchFamily::stockinette}) {
        const Fabric f = even_fabric(family, Worked::flat);
        const double radius = f.yarn_radius_ratio * f.stitch_pitch_mm;
        double lowest_axis = 1e9, highest_axis = 0.0;
        for (const Tube& t : fabric_tubes(f, 0, 0.0))
            for (const TubeNode& n : t.nodes) {
                lowest_axis = std::min(lowest_axis, n.at.z);
                highest_axis = std::max(highest_axis, n.at.z);
            }
        EXPECT_GT(lowest_axis, 0.0);
        EXPECT_GT(highest_axis, 2.0 * radius);
        EXPECT_LT(highest_axis, 3.5 * radius);
    }
}

TEST(FabricTubes, TurnedWorkShowsBothFacesAndRoundsOnlyFronts) {
    const auto front = stitch_strands(StitchFamily::sc, Face::front, LoopRidge::none, {});
    const auto back = stitch_strands(StitchFamily::sc, Face::back, LoopRidge::none, {});
    const auto bars = [](const auto& strands) {
        return std::count_if(strands.begin(), strands.end(),
                             [](const Strand& s) { return s.part == Part::bar; });
    };
    EXPECT_EQ(bars(front), 0);  // two legs of a V
    EXPECT_EQ(bars(back), 1);   // the bar
}

/// Where a maker sees them: under rows that show their front for work through the back loop, else under the
/// others.
TEST(FabricTubes, FreeLoopsLieOnTheSideThatFacedTheMakerOfTheNextRow) {
    using enum LoopRidge;
    EXPECT_EQ(free_loops(StitchFamily::sc_blo, Worked::flat, Face::front), none);
    EXPECT_EQ(free_loops(StitchFamily::sc_blo, Worked::flat, Face::back), facing);
    EXPECT_EQ(free_loops(StitchFamily::sc_blo, Worked::round, Face::front), facing);
    EXPECT_EQ(free_loops(StitchFamily::sc_flo, Worked::flat, Face::front), facing);
    EXPECT_EQ(free_loops(StitchFamily::sc_flo, Worked::flat, Face::back), none);
    EXPECT_EQ(free_loops(StitchFamily::sc_flo, Worked::round, Face::front), none);
}

/// Strength of one spatial frequency (periods over the crop) in a picture, by the discrete Fourier transform
/// of a general-purpose library.
class Spectrum {
  public:
    explicit Spectrum(const cv::Mat3b& crop) {
        cv::Mat grey, window, light;
        cv::cvtColor(crop, grey, cv::COLOR_BGR2GRAY);
        grey.convertTo(light, CV_32F);
        light -= cv::mean(light);
        cv::createHanningWindow(window, light.size(), CV_32F);
        cv::Mat planes[2];
        cv::Mat spectrum;
        cv::dft(light.mul(window), spectrum, cv::DFT_COMPLEX_OUTPUT);
        cv::split(spectrum, planes);
        cv::magnitude(planes[0], planes[1], magnitude_);
    }
    [[nodiscard]] float at(int fx, int fy) const { return magnitude_(fy, fx); }

    /// The strongest place near a guess, within one step.
    [[nodiscard]] bool peaks_at(int fx, int fy) const {
        const float here = at(fx, fy);
        for (const auto& [dx, dy] : {std::pair{2, 0}, {-2, 0}, {0, 2}, {0, -2}}) {
            const int x = (fx + dx + magnitude_.cols) % magnitude_.cols,
                      y = (fy + dy + magnitude_.rows) % magnitude_.rows;
            if (at(x, y) > here) return false;
        }
        return true;
    }

  private:
    cv::Mat1f magnitude_;
};

/// A piece seen from straight above; the crop shows exactly 16 stitches by 16 rows of it.
Spectrum spectrum_of(const Fabric& fabric) {
    Scene scene;
    scene.fabrics = {fabric};
    scene.camera.width_px = 800;
    scene.camera.height_px = 800;
    scene.camera.distance_mm = 4000.0;  // far away: next to no perspective
    scene.camera.focal35_mm = 4000.0 * 6.4 * 43.266615305567875 / std::hypot(800, 800);
    scene.sensor.noise = 0.0;
    scene.light.ambient = 0.6;
    const Picture picture = render(scene);
    const int across = cvRound(16 * fabric.stitch_pitch_mm * 6.4),
              down = cvRound(16 * fabric.row_pitch_mm * 6.4);
    return Spectrum(picture.bgr(cv::Rect(400 - across / 2, 400 - down / 2, across, down)));
}

TEST(FabricPicture, RepeatsEveryStitchAndEveryTwoRowsWhereTurned) {
    const Spectrum s = spectrum_of(even_fabric(StitchFamily::sc, Worked::flat));
    EXPECT_TRUE(s.peaks_at(16, 0));  // 16 stitches
    EXPECT_TRUE(s.peaks_at(0, 8));   // 16 rows are 8 pairs of faces
    EXPECT_GT(s.at(0, 8), 5.0F * s.at(0, 11));
}

TEST(FabricPicture, RepeatsEveryRoundWhereWorkedRound) {
    const Spectrum s = spectrum_of(even_fabric(StitchFamily::sc, Worked::round));
    EXPECT_TRUE(s.peaks_at(16, 0));
    EXPECT_TRUE(s.peaks_at(0, 16));
    EXPECT_GT(s.at(0, 16), 5.0F * s.at(0, 8));
}

TEST(FabricPicture, BackLoopWorkShowsARidgeEverySecondRowWhereTurned) {
    const Spectrum flat = spectrum_of(even_fabric(StitchFamily::sc_blo, Worked::flat));
    EXPECT_TRUE(flat.peaks_at(0, 8));
    EXPECT_GT(flat.at(0, 8), 5.0F * flat.at(0, 11));
    const Spectrum round = spectrum_of(even_fabric(StitchFamily::sc_blo, Worked::round));
    EXPECT_GT(round.at(0, 16), 5.0F * round.at(0, 8));
}

}  // namespace
}  // namespace ridgetally::synthetic
