#include "report/document_parts.h"

#include "core/stitch.h"
#include "report/figures.h"

namespace ridgetally {
namespace {

std::string_view unit_key(LengthUnit unit) { return unit == LengthUnit::mm ? "mm" : "inch"; }

}  // namespace

Document measured_document(const Measured& x) {
    return {{"value", rounded(x.value)},
            {"std", rounded(x.std)},
            {"low95", rounded(x.low95())},
            {"high95", rounded(x.high95())}};
}

Document document_head(std::string_view command) {
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

void add_photos(Document& document, const PhotoFacts& photo, const std::vector<PhotoFacts>& photos) {
    document["photo"] = photo_document(photo);
    if (photos.empty()) return;
    document["photos"] = Document::array();
    for (const auto& one : photos) document["photos"].push_back(photo_document(one));
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

Document stitch_block(const StitchReading& stitch) {
    Document block;
    if (stitch.family) block["family"] = key_of(*stitch.family);
    if (stitch.worked) block["worked"] = key_of(*stitch.worked);
    block["source"] = stitch.source == StitchSource::told ? "told" : "recognised";
    block["confidence"] = rounded(stitch.confidence);
    if (stitch.source == StitchSource::recognised)
        block["any_loop_confidence"] = rounded(stitch.any_loop_confidence);
    return block;
}

void add_if_visible(Document& block, const char* key, const std::optional<Measured>& x) {
    if (x) block[key] = measured_document(*x);
}

Document warnings_document(const std::vector<Warning>& warnings) {
    Document list = Document::array();
    for (const auto& warning : warnings) {
        list.push_back({{"code", warning.code}, {"message", warning.message}});
    }
    return list;
}

void add_corrected(Document& document, const std::vector<std::string>& corrected) {
    if (!corrected.empty()) document["corrected"] = corrected;
}

Document budget_document(const Measured& x) {
    Document list = Document::array();
    for (const auto& part : x.contributions) {
        list.push_back({{"name", part.name}, {"relative_std", rounded(part.relative_std)}});
    }
    return list;
}

}  // namespace ridgetally
