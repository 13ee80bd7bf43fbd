#include "cli/api/measure_request.h"

#include <array>
#include <initializer_list>
#include <vector>

#include "cli/api/json_arguments.h"
#include "report/one_line.h"

namespace ridgetally::api {
namespace {

using nlohmann::json;

constexpr std::array scale_words = {Word{"unit", "--ruler"}, Word{"scale", "--scale", Shape::scale},
                                    Word{"reference", "--reference"},
                                    Word{"ruler_correction", "--ruler-correction"}, Word{"units", "--units"}};

constexpr std::array fabric_words = {Word{"terms", "--terms"},
                                     Word{"stitch", "--stitch"},
                                     Word{"worked", "--worked"},
                                     Word{"area_px", "--area", Shape::points},
                                     Word{"rows_deg", "--rows"},
                                     Word{"reading", "--reading"},
                                     Word{"repeat", "--repeat"},
                                     Word{"thickness", "--thickness"},
                                     Word{"ruler_thickness", "--ruler-thickness"}};

constexpr std::array target_words = {Word{"per", "--per"},     Word{"hook", "--hook"},
                                     Word{"hooks", "--hooks"}, Word{"tolerance", "--tolerance"},
                                     Word{"piece", "--piece"}, Word{"yarn_weight", "--yarn-weight"},
                                     Word{"yarn", "--yarn"},   Word{"state", "--state"}};

constexpr std::array crown_words = {Word{"terms", "--terms"},
                                    Word{"stitch", "--stitch"},
                                    Word{"worked", "--worked"},
                                    Word{"area_px", "--area", Shape::points},
                                    Word{"rim_px", "--rim", Shape::points},
                                    Word{"thickness", "--thickness"},
                                    Word{"ruler_thickness", "--ruler-thickness"},
                                    Word{"want_diameter", "--want"},
                                    Word{"stitches", "--stitches"},
                                    Word{"stitch_width", "--stitch-width"},
                                    Word{"plan", "--plan"}};

constexpr std::array piece_words = {
    Word{"area_px", "--area", Shape::points}, Word{"width_direction", "--width-direction"},
    Word{"thickness", "--thickness"},         Word{"ruler_thickness", "--ruler-thickness"},
    Word{"want_width", "--want-width"},       Word{"want_height", "--want-height"}};

constexpr std::array save_words = {Word{"yarn", "--save"}, Word{"hook", "--hook"}, Word{"state", "--state"},
                                   Word{"mass", "--mass"}, Word{"day", "--day"}};

using Words = std::vector<Word>;

Words operator+(Words all, std::span<const Word> more) {
    all.insert(all.end(), more.begin(), more.end());
    return all;
}

/// Without a target what belongs to it is of no use, and the page may leave it filled in.
json with_target_only(json object, const char* target) {
    const auto want = object.find(target);
    if (want != object.end() && !is_untold(*want)) return object;
    object.erase(target);
    for (const auto& word : target_words) object.erase(std::string(word.key));
    return object;
}

/// The `save` object. A hook must be told: without one the measurement is of little use in the record.
std::optional<Refusal> read_save(const json& object, SaveRequest& save) {
    const auto bad = [](const char* what) { return Refusal{"request", "bad-request", what, ""}; };
    if (!object.is_object()) return bad("\"save\": expected {\"yarn\": ..., \"hook\": ...}");
    json told = object;
    const auto notes = told.find("notes");
    if (notes != told.end() && !is_untold(*notes))
        return bad("\"save\": notes are kept with the yarn, not with a measurement");
    told.erase("notes");
    CLI::App command;
    add_save_options(command, save);
    if (auto refusal = read_options(command, told, save_words)) return refusal;
    if (!save.yarn || !save.hook) return bad("\"save\": expected the name of the yarn and the hook");
    return std::nullopt;
}

/// What all three have: reads `object` with the options that `add_options` adds.
template <typename Arguments, typename AddOptions>
Outcome<Arguments> read(json object, const Words& words, AddOptions add_options) {
    Arguments arguments;
    if (const auto save = object.find("save"); save != object.end()) {
        if (!save->is_null()) {
            if (const auto refusal = read_save(*save, arguments.photos.save)) return *refusal;
        }
        object.erase(save);
    }
    CLI::App command;
    add_options(command, arguments);
    add_units_option(command, arguments.photos.output.text.units);
    add_terms_option(command, arguments.photos.output.text.terms);
    if (const auto refusal = read_options(command, object, words)) return *refusal;
    return arguments;
}

}  // namespace

Outcome<SwatchArguments> swatch_request(const json& object) {
    const Words words = Words{Word{"want", "--want"}} + scale_words + fabric_words + target_words;
    return read<SwatchArguments>(with_target_only(object, "want"), words, add_swatch_options);
}

Outcome<CrownArguments> crown_request(const json& object) {
    const Words words =
        Words{Word{"want_gauge", crown_target_option}} + scale_words + crown_words + target_words;
    return read<CrownArguments>(with_target_only(object, "want_gauge"), words, add_crown_options);
}

Outcome<PieceArguments> piece_request(const json& object) {
    return read<PieceArguments>(object, Words() + scale_words + piece_words, add_piece_options);
}

std::string shown_file_name(std::string_view told) {
    constexpr std::size_t longest = 120;
    const auto slash = told.find_last_of("/\\");
    if (slash != std::string_view::npos) told.remove_prefix(slash + 1);
    if (told.size() > longest) told.remove_prefix(told.size() - longest);
    const std::string shown = one_line(told);
    return shown.empty() || shown == "." || shown == ".." ? "photo" : shown;
}

}  // namespace ridgetally::api
