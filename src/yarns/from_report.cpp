#include "yarns/from_report.h"

#include "yarns/fault.h"
#include "yarns/keys.h"
#include "yarns/validate.h"

namespace ridgetally {
namespace {

const YarnDocument& member(const YarnDocument& object, const char* key) {
    static const YarnDocument nothing;
    if (!object.is_object()) return nothing;
    const auto at = object.find(key);
    return at == object.end() ? nothing : *at;
}

std::string text(const YarnDocument& value) { return value.is_string() ? value.get<std::string>() : ""; }

std::optional<double> number(const YarnDocument& value) {
    if (!value.is_number()) return std::nullopt;
    return value.get<double>();
}

}  // namespace

Outcome<Measurement> measurement_of_report(const YarnDocument& document, const ToldOfPiece& told) {
    // Written out and read again: names of files may hold bytes that are no text, and are replaced.
    const std::string kept = document.dump(-1, ' ', false, YarnDocument::error_handler_t::replace);
    const auto report = YarnDocument::parse(kept);
    const auto kind = from_key<PieceKind>(text(member(report, "command")));
    const YarnDocument& block = kind ? member(report, std::string(key_of(*kind)).c_str()) : report;
    if (text(member(report, "schema")) != "ridgetally.report/1" || !kind || !block.is_object()) {
        return Refusal{record_stage, "bad-document", "this is no measurement of a piece",
                       "save what swatch, crown or piece measured"};
    }
    Measurement measurement;
    measurement.kind = *kind;
    measurement.taken = told.taken;
    measurement.hook_mm = told.hook_mm;
    measurement.state = told.state;
    measurement.mass_g = told.mass_g;
    measurement.stitch = stitch_family_from(text(member(member(report, "stitch"), "family")));
    measurement.worked = worked_from(text(member(member(report, "stitch"), "worked")));
    const auto value = [&](const char* key) { return number(member(member(block, key), "value")); };
    const auto std = [&](const char* key) { return number(member(member(block, key), "std")); };
    measurement.stitches_per_10cm = value("stitches_per_10cm");
    measurement.stitches_std = std("stitches_per_10cm");
    measurement.rows_per_10cm = value("rows_per_10cm");
    measurement.rows_std = std("rows_per_10cm");
    measurement.width_mm = value("width_mm");
    measurement.height_mm = value("height_mm");
    measurement.diameter_mm = value("diameter_mm");
    measurement.rounds = value("rounds");
    measurement.last_round_stitches = value("last_round_stitches");
    measurement.photo_file = text(member(member(report, "photo"), "file"));
    measurement.photo_sha256 = text(member(member(report, "photo"), "sha256"));
    measurement.report = kept;
    return checked(std::move(measurement));
}

std::vector<std::string> corrected_of(const Measurement& measurement) {
    std::vector<std::string> corrected;
    const auto report = YarnDocument::parse(measurement.report, nullptr, false);
    for (const auto& what : member(report, "corrected")) {
        if (what.is_string()) corrected.push_back(what.get<std::string>());
    }
    return corrected;
}

}  // namespace ridgetally
