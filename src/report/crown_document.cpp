#include "report/crown_document.h"

#include "report/checks.h"
#include "report/document_parts.h"
#include "report/figures.h"

namespace ridgetally {
namespace {

Document diameters_document(const std::vector<DirectedDiameter>& diameters) {
    Document list = Document::array();
    for (const auto& diameter : diameters) {
        list.push_back({{"direction_deg", rounded(diameter.direction_deg)},
                        {"diameter_mm", measured_document(diameter.diameter_mm)}});
    }
    return list;
}

Document count_document(const CountedWhole& count) {
    Document block = measured_document(count.count);
    block["least"] = count.least;
    block["most"] = count.most;
    block["chance"] = rounded(count.chance);
    return block;
}

Document crown_block(const CrownResult& result) {
    Document block;
    block["diameter_mm"] = measured_document(result.diameter_mm);
    block["diameter_min_mm"] = measured_document(result.diameter_min_mm);
    block["diameter_max_mm"] = measured_document(result.diameter_max_mm);
    if (result.rounds) block["rounds"] = count_document(*result.rounds);
    if (result.last_round_stitches)
        block["last_round_stitches"] = count_document(*result.last_round_stitches);
    if (!result.round_stitches.empty()) {
        block["round_stitches"] = Document::array();  // last round first
        for (const auto& count : result.round_stitches)
            block["round_stitches"].push_back(count_document(count));
    }
    add_if_visible(block, "stitches_per_10cm", result.stitches_per_10cm);
    add_if_visible(block, "rounds_per_10cm", result.rounds_per_10cm);
    if (!result.round_diameters.empty()) {
        block["round_diameters"] = Document::array();
        for (const auto& round : result.round_diameters)
            block["round_diameters"].push_back(
                {{"round", round.round}, {"diameter_mm", measured_document(round.diameter_mm)}});
    }
    block["diameters"] = diameters_document(result.diameters);
    block["edge_seen_part"] = rounded(result.rim_seen_part);
    return block;
}

}  // namespace

Document crown_document(const CrownResult& result, const std::vector<CrownCheck>& checks,
                        const DocumentOptions& options) {
    Document document = document_head("crown");
    add_photos(document, result.photo, result.photos);
    document["scale"] = scale_block(result.scale);
    document["stitch"] = stitch_block(result.stitch);
    document["crown"] = crown_block(result);
    if (!checks.empty()) document["checks"] = checks_document(checks);
    if (options.advice) document["advice"] = *options.advice;
    add_corrected(document, result.corrected);
    document["warnings"] = warnings_document(result.warnings);
    document["uncertainty"] = {{"diameter_mm", budget_document(result.diameter_mm)}};
    if (options.annotated) document["annotated"] = *options.annotated;
    return document;
}

}  // namespace ridgetally
