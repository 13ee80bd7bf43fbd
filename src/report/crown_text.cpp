#include "report/crown_text.h"

#include "report/figures.h"
#include "report/phrases.h"
#include "report/wrap.h"

namespace ridgetally {
namespace {

std::string other_size(const Measured& mm, SizeUnit units) {
    return size_figure(mm, units == SizeUnit::cm ? SizeUnit::inch : SizeUnit::cm);
}

std::string diameter_lines(const CrownResult& result, SizeUnit units) {
    std::string text = "  Across     " + size_figure(result.diameter_mm, units) + "   (" +
                       other_size(result.diameter_mm, units) + ")\n";
    text += "  Narrowest  " + size_figure(result.diameter_min_mm, units) + "\n";
    text += "  Widest     " + size_figure(result.diameter_max_mm, units) + "\n";
    return text + "  (the true value lies within the \u00B1 in 95 of 100 photos)\n\n";
}

}  // namespace

std::string crown_text(const CrownResult& result, const Catalog& catalog, const TextOptions& options) {
    std::string text = title_line(result.photo, result.photos) + "\n";
    text += diameter_lines(result, options.units);
    text += paragraph("Scale: ", scale_sentence(result.scale, catalog, options.units));
    return text + warning_lines(result.warnings);
}

}  // namespace ridgetally
