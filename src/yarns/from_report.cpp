#include "yarns/from_report.h"

#include "yarns/fault.h"
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
    const YarnDocument& swatch = member(report, "swatch");
    if (text(member(report, "schema")) != "ridgetally.report/1" || !swatch.is_object()) {
        return Refusal{record_stage, "bad-document", "this is no measurement of a piece",
                       "save what swatch, crown or piece measured"};
    }
    Measurement measurement;
    measurement.taken = told.taken;
    measurement.hook_mm = told.hook_mm;
    measurement.state = told.state;
    measurement.mass_g = told.mass_g;
    measurement.stitch = stitch_family_from(text(member(member(report, "stitch"), "family")));
    measurement.worked = worked_from(text(member(member(report, "stitch"), "worked")));
    const auto& stitches = member(swatch, "stitches_per_10cm");
    const auto& rows = member(swatch, "rows_per_10cm");
    measurement.stitches_per_10cm = number(member(stitches, "value"));
    measurement.stitches_std = number(member(stitches, "std"));
    measurement.rows_per_10cm = number(member(rows, "value"));
    measurement.rows_std = number(member(rows, "std"));
    measurement.width_mm = number(member(member(swatch, "width_mm"), "value"));
    measurement.height_mm = number(member(member(swatch, "height_mm"), "value"));
    measurement.photo_file = text(member(member(report, "photo"), "file"));
    measurement.photo_sha256 = text(member(member(report, "photo"), "sha256"));
    measurement.report = kept;
    return checked(std::move(measurement));
}

}  // namespace ridgetally
