#include "report/picture.h"

#include "report/caption.h"
#include "report/draw/canvas.h"
#include "report/overlay.h"

namespace ridgetally {
namespace {

cv::Mat stacked(const cv::Mat& above, const cv::Mat& below) {
    cv::Mat both;
    cv::vconcat(above, below, both);
    return both;
}

}  // namespace

cv::Mat annotated_picture(const cv::Mat& photo_bgr, const SwatchResult& result, const Catalog& catalog,
                          const PictureOptions& options) {
    Canvas canvas = canvas_over(photo_bgr, result.photo.width_px, options.long_side_px);
    draw_marks(canvas, result.scale);
    draw_outline(canvas, result.overlay.outline);
    draw_ridges(canvas, result.overlay);
    return stacked(swatch_caption(result, catalog, canvas.picture.cols, options.terms), canvas.picture);
}

cv::Mat annotated_picture(const cv::Mat& photo_bgr, const ScaleReport& report, const Catalog& catalog,
                          const PictureOptions& options) {
    Canvas canvas = canvas_over(photo_bgr, report.photo.width_px, options.long_side_px);
    draw_marks(canvas, report.scale);
    return stacked(scale_caption(report, catalog, canvas.picture.cols), canvas.picture);
}

}  // namespace ridgetally
