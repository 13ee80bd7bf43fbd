#include "pipeline/measure_swatch.h"

namespace ridgetally {

Outcome<Knowledge> load_knowledge() {
    auto catalog = load_catalog(models_folder());
    if (!catalog) return catalog.refusal();
    return Knowledge{std::move(catalog).value(), RecogniserOnDemand(models_folder() / "recogniser")};
}

}  // namespace ridgetally
