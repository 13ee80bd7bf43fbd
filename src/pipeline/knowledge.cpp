#include "pipeline/measure_swatch.h"

namespace ridgetally {

Outcome<Knowledge> load_knowledge() {
    auto catalog = load_catalog(models_folder());
    if (!catalog) return catalog.refusal();
    Knowledge knowledge{std::move(catalog).value(), std::nullopt};
    auto recogniser = load_recogniser(models_folder() / "recogniser");
    if (recogniser) knowledge.recogniser = std::move(recogniser).value();
    return knowledge;
}

}  // namespace ridgetally
