#include "cli/yarn_request.h"

#include <algorithm>
#include <utility>

#include "advice/hat_shape.h"
#include "cli/gauge_options.h"
#include "core/trade_units.h"
#include "image/file_bytes.h"
#include "report/hat.h"
#include "yarns/recorded_use.h"

namespace ridgetally {
namespace {

/// A swatch of which mass and area are told, or stand in the document of a photo.
Outcome<std::optional<WeighedPiece>> told_swatch(const YarnNeededArguments& arguments) {
    const auto& mass = arguments.swatch_mass_g;
    if (mass && arguments.swatch_area_mm2)
        return std::optional(WeighedPiece{*mass, area_by_hand(*arguments.swatch_area_mm2), "the maker"});
    if (!mass && !arguments.measured_file) return std::optional<WeighedPiece>();
    const Refusal no_area{
        "advice", "no-area", "the area of the swatch is not known",
        "tell it with --swatch-area, as in 15x15cm, or --measured with a photo that shows the whole swatch"};
    if (!arguments.measured_file) return no_area;
    const auto swatch = measured_swatch(*arguments.measured_file);
    if (!swatch) return swatch.refusal();
    if (!swatch->width_mm || !swatch->height_mm) return no_area;
    if (!mass && !swatch->mass_g) {
        return Refusal{"advice", "no-weight",
                       *arguments.measured_file + " does not say what the swatch weighs",
                       "tell it with --swatch-mass, or measure with swatch --mass 12.4g --json"};
    }
    return weighed_rectangle(mass ? *mass : *swatch->mass_g, swatch->width_mm, swatch->height_mm,
                             swatch->gauge.source);
}

Outcome<std::vector<PiecesWanted>> hats_wanted(const YarnNeededArguments& arguments, const Catalog& catalog) {
    const auto heads = heads_from(arguments.heads, catalog);
    if (!heads) return heads.refusal();
    std::vector<PiecesWanted> hats;
    for (const auto& head : *heads) {
        if (!is_high_enough(head, arguments.wish, catalog.hat_practice))
            return Refusal{"advice", "hat-too-low", "a hat so low has no side below its crown",
                           "tell more height, or leave it away"};
        PiecesWanted hat;
        hat.name = "hat for " + length_text(head.circumference_mm, arguments.units);
        hat.count = arguments.count;
        hat.area_mm2 = hat_shape(head, arguments.wish, catalog.hat_practice).area_mm2;
        hats.push_back(hat);
    }
    return hats;
}

Outcome<std::vector<PiecesWanted>> pieces_wanted(const YarnNeededArguments& arguments,
                                                 const std::optional<RecordedYarn>& recorded,
                                                 const Catalog& catalog) {
    std::vector<PiecesWanted> pieces;
    const auto add = [&](const std::string& name) -> PiecesWanted& {
        pieces.push_back({name, arguments.count, {}, {}});
        return pieces.back();
    };
    if (arguments.used_g) add("piece like the last").mass_g = arguments.used_g;
    if (arguments.like) {
        const auto mass = recorded_mass(recorded->yarn, recorded->measurements, *arguments.like);
        if (!mass) return mass.refusal();
        PiecesWanted& piece = add("piece like number " + std::to_string(*arguments.like));
        piece.mass_g = *mass;
        piece.mass_source = "record of yarns, number " + std::to_string(*arguments.like);
    }
    if (arguments.area_mm2) add("piece").area_mm2 = arguments.area_mm2;
    if (!arguments.heads.empty()) {
        const auto hats = hats_wanted(arguments, catalog);
        if (!hats) return hats.refusal();
        pieces.insert(pieces.end(), hats->begin(), hats->end());
    }
    if (pieces.empty())
        return Refusal{"advice", "no-pieces", "nothing is to be made",
                       "tell hats with --head, a piece with --area, or --used with what the last one took"};
    return pieces;
}

/// Ball and stock of the record, where they were not told.
void add_stock_of(const Yarn& yarn, YarnRequest& request) {
    const std::string source = "record of yarns, \"" + yarn.name + "\"";
    if (!request.ball && yarn.ball_g) {
        request.ball = Ball{*yarn.ball_g, std::nullopt};
        if (yarn.ball_m) request.ball->length_mm = *yarn.ball_m * mm_per_m;
        request.ball_source = source;
    }
    if (request.stock) return;
    if (yarn.balls && request.ball) {
        request.stock = Stock{yarn.balls, std::nullopt};
        request.stock_source = source;
        return;
    }
    request.reasons.push_back(
        {"stock-not-known", std::string("whether what you have is enough cannot be said: the record does "
                                        "not know ") +
                                (yarn.balls ? "what a ball weighs" : "how many balls are left") +
                                "; tell it with yarn edit"});
}

/// What the weighed swatches of the record took, where that is needed.
Outcome<Written> add_use_of(const RecordedYarn& recorded, YarnRequest& request) {
    const auto by_area = [](const PiecesWanted& piece) { return !piece.mass_g.has_value(); };
    if (request.weighed || std::none_of(request.pieces.begin(), request.pieces.end(), by_area))
        return Written{};
    GaugeChoice choice = recorded.choice;
    choice.rather = Worked::round;
    auto use = recorded_use(recorded.yarn, recorded.measurements, choice);
    if (!use) return use.refusal();
    request.weighed = use->weighed;
    request.weighed->mass_source = use->weighed.source;
    request.reasons.insert(request.reasons.end(), use->reasons.begin(), use->reasons.end());
    return Written{};
}

}  // namespace

Outcome<YarnRequest> yarn_request(const YarnNeededArguments& arguments, const Catalog& catalog) {
    YarnRequest request = arguments.request;
    const auto weighed = told_swatch(arguments);
    if (!weighed) return weighed.refusal();
    request.weighed = *weighed;
    std::optional<RecordedYarn> recorded;
    if (arguments.recorded.yarn) {
        auto found = recorded_yarn(arguments.recorded, catalog);
        if (!found) return found.refusal();
        recorded = std::move(found).value();
    }
    const auto pieces = pieces_wanted(arguments, recorded, catalog);
    if (!pieces) return pieces.refusal();
    request.pieces = *pieces;
    if (!recorded) return request;
    add_stock_of(recorded->yarn, request);
    if (const auto used = add_use_of(*recorded, request); !used) return used.refusal();
    return request;
}

}  // namespace ridgetally
