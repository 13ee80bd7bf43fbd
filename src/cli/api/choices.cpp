#include "cli/api/choices.h"

#include <array>

#include "core/stitch.h"
#include "web/form_parts.h"
#include "yarns/keys.h"

namespace ridgetally::api {
namespace {

Document stitches_of(const Catalog& catalog) {
    Document list = Document::array();
    for (const auto& stitch : catalog.stitches) {
        list.push_back({{"key", key_of(stitch.family)},
                        {"us", stitch.us.name},
                        {"uk", stitch.uk.name},
                        {"us_abbreviation", stitch.us.abbreviation},
                        {"uk_abbreviation", stitch.uk.abbreviation}});
    }
    return list;
}

Document hooks_of(const Catalog& catalog) {
    Document list = Document::array();
    for (const auto& hook : catalog.hooks) list.push_back(hook.mm);
    return list;
}

Document weights_of(const Catalog& catalog) {
    Document list = Document::array();
    for (const auto& weight : catalog.yarn_weights)
        list.push_back({{"key", weight.category}, {"name", weight.name}});
    return list;
}

Document references_of(const Catalog& catalog) {
    Document list = Document::array();
    for (const auto& object : catalog.flat_objects)
        list.push_back({{"key", object.key}, {"name", object.name}});
    return list;
}

template <typename T, std::size_t Count>
Document keys_of(const std::array<T, Count>& values) {
    Document list = Document::array();
    for (const T value : values) list.push_back(key_of(value));
    return list;
}

}  // namespace

Document choices_document(const Context& context) {
    const Catalog& catalog = context.knowledge.catalog;
    constexpr double pixels_per_megapixel = 1e6;
    Document choices;
    choices["stitches"] = stitches_of(catalog);
    choices["worked"] = keys_of(std::array{Worked::flat, Worked::round});
    choices["hooks_mm"] = hooks_of(catalog);
    choices["yarn_weights"] = weights_of(catalog);
    choices["states"] = keys_of(std::array{FabricState::off_hook, FabricState::relaxed, FabricState::washed});
    choices["references"] = references_of(catalog);
    choices["limits"] = {
        {"upload_bytes", context.photo.max_file_bytes},
        {"photos", web::most_photos},
        {"pixels", static_cast<std::int64_t>(context.photo.max_megapixels * pixels_per_megapixel)}};
    return choices;
}

}  // namespace ridgetally::api
