#pragma once

#include <CLI/CLI.hpp>
#include <optional>

#include "advice/crown_checks.h"
#include "cli/hook_options.h"
#include "cli/photo_command.h"
#include "cli/shared_options.h"
#include "pipeline/measure_crown.h"
#include "pipeline/measure_piece.h"
#include "pipeline/measure_swatch.h"

/// What swatch, crown and piece were told, and what they make of it: shared by the commands and the web API.
namespace ridgetally {

struct SwatchArguments {
    PhotoArguments photos;
    SwatchOptions measure;
    HookArguments hook;  ///< advice on the hook, where a target was told
};

struct CrownArguments {
    PhotoArguments photos;
    CrownOptions measure;
    CrownWishes wishes;
    HookArguments hook;  ///< advice on the hook, where a target was told
};

/// The option of crown that asks for advice on the hook: its --want is the diameter.
inline constexpr const char* crown_target_option = "--want-gauge";

struct PieceArguments {
    PhotoArguments photos;
    PieceOptions measure;
    std::optional<LengthRange> want_width;
    std::optional<LengthRange> want_height;
};

/// Options on what is measured and what it should be: all but those on photos, record and output.
void add_swatch_options(CLI::App& command, SwatchArguments& arguments);
void add_crown_options(CLI::App& command, CrownArguments& arguments);
void add_piece_options(CLI::App& command, PieceArguments& arguments);

/// What each makes of a photo. Arguments and knowledge must outlive it. Refusals: those of hook_request.
[[nodiscard]] Outcome<PhotoCommand<SwatchResult>> swatch_with(const SwatchArguments& arguments,
                                                              const Knowledge& knowledge);
[[nodiscard]] Outcome<PhotoCommand<CrownResult>> crown_with(const CrownArguments& arguments,
                                                            const Knowledge& knowledge);
[[nodiscard]] Outcome<PhotoCommand<PieceResult>> piece_with(const PieceArguments& arguments,
                                                            const Knowledge& knowledge);

}  // namespace ridgetally
