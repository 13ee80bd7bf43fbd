#include "report/terms.h"

namespace ridgetally {

const StitchName& stitch_name(const Catalog& catalog, StitchFamily family, Terms terms) {
    const StitchFacts& facts = facts_of(catalog, family);
    return terms == Terms::us ? facts.us : facts.uk;
}

std::string_view gauge_word(Terms terms) { return terms == Terms::us ? "gauge" : "tension"; }

std::string_view row_word(std::optional<Worked> worked) {
    return worked == Worked::round ? "rounds" : "rows";
}

}  // namespace ridgetally
