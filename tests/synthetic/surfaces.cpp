#include "synthetic/surfaces.h"

#include <array>
#include <cmath>
#include <numbers>
#include <opencv2/imgproc.hpp>

#include "core/units.h"
#include "synthetic/noise.h"

namespace ridgetally::synthetic {
namespace {

constexpr auto pi_f = std::numbers::pi_v<float>;

cv::Matx33d square(const cv::Matx23d& m) {
    return {m(0, 0), m(0, 1), m(0, 2), m(1, 0), m(1, 1), m(1, 2), 0, 0, 1};
}

/// Photo pixels to supersampled pixels: centre of the top left pixel is (0, 0) in both.
cv::Matx33d supersampled(int ss) {
    const double shift = 0.5 * (ss - 1);
    return {static_cast<double>(ss), 0, shift, 0, static_cast<double>(ss), shift, 0, 0, 1};
}

/// Relative brightness of the table's texture at a place (mm).
class TableTexture {
  public:
    explicit TableTexture(const Table& table)
        : table_(table),
          coarse_(fractal_tile(512, 4, 4, 4, table.seed)),
          fine_(noise_tile(512, 256, 256, table.seed + 9)),
          cos_(static_cast<float>(std::cos(table.angle_deg / degrees_per_radian))),
          sin_(static_cast<float>(std::sin(table.angle_deg / degrees_per_radian))),
          board_mm_(95.0F + static_cast<float>(table.seed % 400)) {}

    [[nodiscard]] float at(float x_mm, float y_mm) const {
        const float u = cos_ * x_mm + sin_ * y_mm + 1000.0F, v = cos_ * y_mm - sin_ * x_mm + 1000.0F;
        const auto k = static_cast<float>(table_.contrast);
        switch (table_.make) {
            case TableMake::plain:
                return 1.0F + k * (0.03F * tile_at(coarse_, u * 1.3F, v * 1.3F) +
                                   0.02F * tile_at(fine_, u * 6.0F, v * 6.0F));
            case TableMake::wood:
                return wood(u, v);
            case TableMake::cloth: {
                const float pitch = 1.1F;
                const float weave = std::sin(2.0F * pi_f * u / pitch) * std::sin(2.0F * pi_f * v / pitch);
                return 1.0F + k * (0.10F * weave + 0.06F * tile_at(fine_, u * 4.0F, v * 4.0F) +
                                   0.05F * tile_at(coarse_, u, v));
            }
        }
        return 1.0F;
    }

  private:
    /// Boards with grain lines of uneven width that wander along the board.
    [[nodiscard]] float wood(float u, float v) const {
        const auto k = static_cast<float>(table_.contrast);
        const float board = std::floor(v / board_mm_), own = 37.0F * board;
        const float bend = 5.0F * tile_at(coarse_, u * 0.3F + own, v * 0.6F);
        const float line = tile_at(coarse_, own + 0.05F * u, (v + bend) * 5.0F);
        const float fibre = tile_at(fine_, u * 0.7F + own, v * 7.0F);
        const float tone = 0.06F * tile_at(fine_, own, 3.0F * board);
        const float joint = std::abs(v - (board + 1.0F) * board_mm_) < 0.4F ? 0.45F : 0.0F;
        return 1.0F + k * (0.22F * line + 0.05F * fibre + tone) - joint;
    }

    const Table& table_;
    cv::Mat1f coarse_, fine_;
    float cos_, sin_, board_mm_;
};

std::vector<cv::Point> hull_of(const std::array<Vec3, 8>& corners, const Projector& projector, int ss) {
    std::vector<cv::Point2f> points;
    for (const Vec3& c : corners) {
        const Projected p = projector.pinhole(c);
        points.emplace_back(static_cast<float>((p.x + 0.5) * ss - 0.5),
                            static_cast<float>((p.y + 0.5) * ss - 0.5));
    }
    std::vector<cv::Point2f> hull;
    cv::convexHull(points, hull);
    return {hull.begin(), hull.end()};
}

void paint_sides(Surfaces& surfaces, const Canvas& face, const Slab& slab, const Projector& projector,
                 int ss) {
    std::array<Vec3, 8> corners;
    std::size_t n = 0;
    for (const double z : {slab.base_mm, slab.base_mm + slab.thickness_mm})
        for (const double x : {0.0, face.width_mm()})
            for (const double y : {0.0, face.height_mm()}) {
                const cv::Vec2d at = slab.table_from_canvas * cv::Vec3d(x, y, 1.0);
                corners[n++] = {at[0], at[1], z};
            }
    const std::vector<std::vector<cv::Point>> hull{hull_of(corners, projector, ss)};
    cv::fillPoly(surfaces.colour, hull, cv::Scalar(slab.side[0], slab.side[1], slab.side[2]));
    cv::fillPoly(surfaces.height_mm, hull, cv::Scalar(slab.base_mm + 0.5 * slab.thickness_mm));
}

}  // namespace

Surfaces table_surface(const Scene& scene, const Projector& projector) {
    const Camera& camera = scene.camera;
    const cv::Matx33d table_from_photo = projector.pinhole_from_plane(0.0).inv();
    const TableTexture texture(scene.table);
    cv::Mat3b small(camera.height_px, camera.width_px);
    small.forEach([&](cv::Vec3b& pixel, const int* position) {
        const cv::Vec3d p = table_from_photo * cv::Vec3d(position[1], position[0], 1.0);
        const float brightness = texture.at(static_cast<float>(p[0] / p[2]), static_cast<float>(p[1] / p[2]));
        for (int c = 0; c < 3; ++c) pixel[c] = cv::saturate_cast<uchar>(brightness * scene.table.colour[c]);
    });
    Surfaces out;
    const cv::Size size(camera.width_px * scene.supersampling, camera.height_px * scene.supersampling);
    cv::Mat large;
    cv::resize(small, large, size, 0, 0, cv::INTER_LINEAR);
    out.colour = large;
    out.height_mm = cv::Mat1f::zeros(size);
    out.gloss = cv::Mat1b(size, scene.table.make == TableMake::wood ? uchar{60} : uchar{12});
    return out;
}

void lay_slab(Surfaces& surfaces, const Canvas& face, const Slab& slab, const Projector& projector, int ss) {
    if (slab.sides == Sides::box) paint_sides(surfaces, face, slab, projector, ss);
    const double s = face.px_per_mm;
    const cv::Matx33d mm_from_pixel{1 / s, 0, 0.5 / s, 0, 1 / s, 0.5 / s, 0, 0, 1};
    const double top = slab.base_mm + slab.thickness_mm;
    const cv::Matx33d picture_from_pixel =
        supersampled(ss) * projector.pinhole_from_plane(top) * square(slab.table_from_canvas) * mm_from_pixel;

    std::vector<cv::Point2d> corners, seen;
    for (const double x : {-1.0, static_cast<double>(face.pixels.cols)})
        for (const double y : {-1.0, static_cast<double>(face.pixels.rows)}) corners.emplace_back(x, y);
    cv::perspectiveTransform(corners, seen, picture_from_pixel);
    std::vector<cv::Point2f> outline(seen.begin(), seen.end());
    const cv::Rect all(0, 0, surfaces.colour.cols, surfaces.colour.rows);
    const cv::Rect roi = cv::boundingRect(outline) & all;
    if (roi.empty()) return;
    const cv::Matx33d shift{1, 0, -static_cast<double>(roi.x), 0, 1, -static_cast<double>(roi.y), 0, 0, 1};
    cv::Mat4b warped;
    cv::warpPerspective(face.pixels, warped, shift * picture_from_pixel, roi.size(), cv::INTER_LINEAR,
                        cv::BORDER_CONSTANT,
                        cv::Scalar(face.pixels(0, 0)[0], face.pixels(0, 0)[1], face.pixels(0, 0)[2], 0));
    const auto gloss = std::max<uchar>(1, cv::saturate_cast<uchar>(255.0 * slab.gloss));  // 0 marks yarn
    const auto height = static_cast<float>(slab.base_mm + slab.shadow_height * slab.thickness_mm);
    for (int y = 0; y < roi.height; ++y) {
        for (int x = 0; x < roi.width; ++x) {
            const cv::Vec4b& p = warped(y, x);
            if (p[3] == 0) continue;
            cv::Vec3b& under = surfaces.colour(roi.y + y, roi.x + x);
            for (int c = 0; c < 3; ++c)
                under[c] = static_cast<uchar>((p[c] * p[3] + under[c] * (255 - p[3]) + 127) / 255);
            surfaces.height_mm(roi.y + y, roi.x + x) = height;
            surfaces.gloss(roi.y + y, roi.x + x) = gloss;
        }
    }
}

cv::Matx23d centred_frame(double x_mm, double y_mm, double angle_deg, double width_mm, double height_mm) {
    const double a = angle_deg / degrees_per_radian, c = std::cos(a), s = std::sin(a);
    return {c, -s, x_mm - c * width_mm / 2 + s * height_mm / 2,
            s, c,  y_mm - s * width_mm / 2 - c * height_mm / 2};
}

}  // namespace ridgetally::synthetic
