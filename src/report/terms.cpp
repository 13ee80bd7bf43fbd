#include "report/terms.h"

#include <array>
#include <cstddef>

namespace ridgetally {
namespace {

struct Names {
    StitchTerm us;
    StitchTerm uk;
};

// In the order of StitchFamily.
constexpr std::array<Names, stitch_family_count> names = {{
    {{"single crochet", "sc"}, {"double crochet", "dc"}},
    {{"single crochet in the back loop", "sc blo"}, {"double crochet in the back loop", "dc blo"}},
    {{"single crochet in the front loop", "sc flo"}, {"double crochet in the front loop", "dc flo"}},
    {{"half double crochet", "hdc"}, {"half treble", "htr"}},
    {{"half double crochet in the back loop", "hdc blo"}, {"half treble in the back loop", "htr blo"}},
    {{"double crochet", "dc"}, {"treble", "tr"}},
    {{"treble crochet", "tr"}, {"double treble", "dtr"}},
    {{"stockinette", "sts"}, {"stocking stitch", "sts"}},
}};

}  // namespace

StitchTerm stitch_term(StitchFamily family, Terms terms) {
    const Names& both = names.at(static_cast<std::size_t>(family));
    return terms == Terms::us ? both.us : both.uk;
}

std::string_view gauge_word(Terms terms) { return terms == Terms::us ? "gauge" : "tension"; }

std::string_view row_word(std::optional<Worked> worked) {
    return worked == Worked::round ? "rounds" : "rows";
}

}  // namespace ridgetally
