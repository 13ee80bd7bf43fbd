#pragma once

#include <functional>
#include <optional>

#include "cli/hook_options.h"
#include "cli/photo_runs.h"
#include "report/wrap.h"

namespace ridgetally {

/// What the advice on the hook needs besides the piece in the photo.
struct PhotoTarget {
    HookRequest request;
    MakersRecord record;
    std::optional<FabricState> state;  ///< as told
    AdviceOptions options;
    const Catalog& catalog;
};

/// The target told; `want` must be. Refusals: of hook_request and MakersRecord::open.
[[nodiscard]] inline Outcome<PhotoTarget> photo_target(const HookArguments& arguments,
                                                       const PhotoArguments& photos, const Catalog& catalog) {
    const auto request = hook_request(arguments, catalog);
    if (!request) return request.refusal();
    const auto record = MakersRecord::open(arguments.recorded);
    if (!record) return record.refusal();
    return PhotoTarget{
        *request, *record, photos.save.told.state, {photos.output.text.units, arguments.why}, catalog};
}

/// The swatch judged as the record may know it.
[[nodiscard]] inline std::optional<SwatchJudged> judged_in_photo(const StitchReading& stitch,
                                                                 const PhotoFacts& photo,
                                                                 const std::vector<PhotoFacts>& photos,
                                                                 const PhotoTarget& target) {
    if (!stitch.family) return std::nullopt;
    SwatchJudged judged{*stitch.family, stitch.worked, target.state, {photo.sha256}, {}};
    for (const auto& other : photos) judged.photos_sha256.push_back(other.sha256);
    return judged;
}

/// Puts the advice behind what the command says of a piece; `gauge_of` gives its gauge, none where the photo
/// does not show it.
template <typename Result>
void add_advice(PhotoCommand<Result>& command, const PhotoTarget& target,
                const std::function<std::optional<MadeGauge>(const Result&)>& gauge_of) {
    const auto verdict_on = [=](const Result& result) -> std::optional<GaugeVerdict> {
        const auto made = gauge_of(result);
        if (!made) return std::nullopt;
        return judge_gauge(*made, target.request,
                           judged_in_photo(result.stitch, result.photo, result.photos, target), target.record,
                           target.catalog);
    };
    command.document = [=, piece_alone = command.document](const Result& result,
                                                           const DocumentOptions& told) {
        DocumentOptions with_advice = told;
        if (const auto verdict = verdict_on(result))
            with_advice.advice = verdict_document(*verdict, target.options);
        return piece_alone(result, with_advice);
    };
    command.text = [=, piece_alone = command.text](const Result& result) {
        const auto verdict = verdict_on(result);
        return piece_alone(result) + "\n" +
               (verdict ? verdict_text(*verdict, target.catalog, target.options)
                        : paragraph("Hook: ", "not judged: the photo does not show the gauge."));
    };
}

}  // namespace ridgetally
