#include "report/document.h"

#include <string_view>

#include "core/stitch.h"
#include "report/figures.h"

namespace ridgetally {
namespace {

std::string_view unit_key(LengthUnit unit) { return unit == LengthUnit::mm ? "mm" : "inch"; }

Document head(std::string_view command) {
    Document document;
    document["schema"] = report_schema;
    document["program"] = {{"version", RIDGETALLY_VERSION}};
    document["command"] = command;
    return document;
}

Document photo_document(const PhotoFacts& photo) {
    return {{"file", photo.file},
            {"sha256", photo.sha256},
            {"width_px", photo.width_px},
            {"height_px", photo.height_px}};
}

Document scale_block(const ScaleResult& scale) {
    Document block;
    block["reference"] = scale.reference;
    block["unit"] = unit_key(scale.unit);
    block["px_per_mm"] = measured_document(scale.px_per_mm);
    block["tilt_deg"] = rounded(scale.tilt_deg);
    if (scale.camera_distance_mm > 0.0) block["camera_distance_mm"] = rounded(scale.camera_distance_mm);
    return block;
}

Document marks_document(const std::vector<ScaleMark>& marks) {
    Document list = Document::array();
    for (const auto& mark : marks) {
        list.push_back({{"mm", rounded(mark.position_mm)},
                        {"x_px", rounded(mark.foot_px.x)},
                        {"y_px", rounded(mark.foot_px.y)}});
    }
    return list;
}

Document stitch_block(const StitchReading& stitch) {
    Document block;
    if (stitch.family) block["family"] = key_of(*stitch.family);
    if (stitch.worked) block["worked"] = key_of(*stitch.worked);
    block["source"] = stitch.source == StitchSource::told ? "told" : "recognised";
    block["confidence"] = rounded(stitch.confidence);
    return block;
}

void add_if_visible(Document& block, const char* key, const std::optional<Measured>& x) {
    if (x) block[key] = measured_document(*x);
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

Document warnings_document(const std::vector<Warning>& warnings) {
    Document list = Document::array();
    for (const auto& warning : warnings) {
        list.push_back({{"code", warning.code}, {"message", warning.message}});
    }
    return list;
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

Document budget_document(const Measured& x) {
    Document list = Document::array();
    for (const auto& part : x.contributions) {
        list.push_back({{"name", part.name}, {"relative_std", rounded(part.relative_std)}});
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

Document measured_document(const Measured& x) {
    return {{"value", rounded(x.value)},
            {"std", rounded(x.std)},
            {"low95", rounded(x.low95())},
            {"high95", rounded(x.high95())}};
}

Document swatch_document(const SwatchResult& result, const DocumentOptions& options) {
    Document document = head("swatch");
    document["photo"] = photo_document(result.photo);
    if (!result.photos.empty()) {
        document["photos"] = Document::array();
        for (const auto& photo : result.photos) document["photos"].push_back(photo_document(photo));
    }
    document["scale"] = scale_block(result.scale);
    document["stitch"] = stitch_block(result.stitch);
    document["swatch"] = swatch_block(result);
    document["warnings"] = warnings_document(result.warnings);
    document["rivals"] = rivals_document(result.rivals);
    document["uncertainty"] = uncertainty_document(result);
    if (options.annotated) document["annotated"] = *options.annotated;
    return document;
}

Document scale_document(const ScaleReport& report, const DocumentOptions& options) {
    Document document = head("scale");
    document["photo"] = photo_document(report.photo);
    document["scale"] = scale_block(report.scale);
    document["scale"]["marks"] = marks_document(report.scale.marks);
    document["warnings"] = warnings_document(report.warnings);
    document["uncertainty"] = {{"px_per_mm", budget_document(report.scale.px_per_mm)}};
    if (options.annotated) document["annotated"] = *options.annotated;
    return document;
}

Document refusal_document(const Refusal& refusal, const PhotoOfCommand& photo) {
    Document document = head(photo.command);
    document["photo"] = {{"file", photo.file}};
    document["refusal"] = {{"stage", refusal.stage},
                           {"code", refusal.code},
                           {"message", refusal.message},
                           {"hint", refusal.hint}};
    return document;
}

Document failure_document(int status, const std::string& message, const PhotoOfCommand& photo) {
    Document document = head(photo.command);
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
