#include "report/document.h"

#include "report/document_parts.h"
#include "report/figures.h"

namespace ridgetally {
namespace {

Document marks_document(const std::vector<ScaleMark>& marks) {
    Document list = Document::array();
    for (const auto& mark : marks) {
        list.push_back({{"mm", rounded(mark.position_mm)},
                        {"x_px", rounded(mark.foot_px.x)},
                        {"y_px", rounded(mark.foot_px.y)}});
    }
    return list;
}

Document swatch_block(const SwatchResult& result) {
    Document block;
    block["stitches_per_10cm"] = measured_document(result.stitches_per_10cm);
    add_if_visible(block, "rows_per_10cm", result.rows_per_10cm);
    add_if_visible(block, "width_mm", result.width_mm);
    add_if_visible(block, "height_mm", result.height_mm);
    add_if_visible(block, "stitches", result.stitches);
    add_if_visible(block, "rows", result.rows);
    return block;
}

Document rivals_document(const std::vector<RivalGauge>& rivals) {
    Document list = Document::array();
    for (const auto& rival : rivals) {
        list.push_back({{"stitches_per_10cm", rounded(rival.stitches_per_10cm)},
                        {"rows_per_10cm", rounded(rival.rows_per_10cm)},
                        {"score", rounded(rival.score)}});
    }
    return list;
}

Document uncertainty_document(const SwatchResult& result) {
    Document block;
    block["stitches_per_10cm"] = budget_document(result.stitches_per_10cm);
    if (result.rows_per_10cm) block["rows_per_10cm"] = budget_document(*result.rows_per_10cm);
    return block;
}

}  // namespace

Document swatch_document(const SwatchResult& result, const DocumentOptions& options) {
    Document document = document_head("swatch");
    add_photos(document, result.photo, result.photos);
    document["scale"] = scale_block(result.scale);
    document["stitch"] = stitch_block(result.stitch);
    document["swatch"] = swatch_block(result);
    add_corrected(document, result.corrected);
    document["warnings"] = warnings_document(result.warnings);
    document["rivals"] = rivals_document(result.rivals);
    document["uncertainty"] = uncertainty_document(result);
    if (options.advice) document["advice"] = *options.advice;
    if (options.annotated) document["annotated"] = *options.annotated;
    return document;
}

Document scale_document(const ScaleReport& report, const DocumentOptions& options) {
    Document document = document_head("scale");
    document["photo"] = photo_document(report.photo);
    document["scale"] = scale_block(report.scale);
    document["scale"]["marks"] = marks_document(report.scale.marks);
    document["warnings"] = warnings_document(report.warnings);
    document["uncertainty"] = {{"px_per_mm", budget_document(report.scale.px_per_mm)}};
    if (options.annotated) document["annotated"] = *options.annotated;
    return document;
}

Document refusal_document(const Refusal& refusal, const PhotoOfCommand& photo) {
    Document document = document_head(photo.command);
    if (!photo.file.empty()) document["photo"] = {{"file", photo.file}};
    document["refusal"] = {{"stage", refusal.stage},
                           {"code", refusal.code},
                           {"message", refusal.message},
                           {"hint", refusal.hint}};
    return document;
}

Document failure_document(int status, const std::string& message, const PhotoOfCommand& photo) {
    Document document = document_head(photo.command);
    document["photo"] = {{"file", photo.file}};
    document["error"] = {{"status", status}, {"message", message}};
    return document;
}

std::string json_text(const Document& document) {
    return document.dump(2, ' ', false, Document::error_handler_t::replace) + "\n";
}

std::string json_line(const Document& document) {
    return document.dump(-1, ' ', false, Document::error_handler_t::replace) + "\n";
}

}  // namespace ridgetally
