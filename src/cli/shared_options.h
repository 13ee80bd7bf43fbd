#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "cli/save_option.h"
#include "pipeline/measure_swatch.h"
#include "report/text.h"

namespace ridgetally {

/// How the result comes out.
enum class Form { text, json };

struct OutputOptions {
    Form form = Form::text;
    TextOptions text;
    std::optional<std::string> annotated;  ///< file, or folder of a batch
    std::optional<std::string> trace;      ///< folder
};

/// Several photos show one piece, or each its own.
enum class PhotosAre { of_one_piece, separate };

/// The photos of a command and how they are to be worked through.
struct PhotoArguments {
    std::string command;  ///< "swatch"
    std::vector<std::string> photos;
    PhotosAre photos_are = PhotosAre::of_one_piece;
    std::size_t jobs = 1;  ///< photos of a batch measured at the same time
    OutputOptions output;
    SaveRequest save;
};

/// PHOTO..., --batch, --jobs, --save and what goes with it. `photos_help` says what several photos show.
void add_photo_options(CLI::App& command, PhotoArguments& arguments, const std::string& photos_help);

/// --ruler, --scale, --reference, --ruler-correction.
void add_scale_options(CLI::App& command, ScaleOptions& options);

/// --json.
void add_json_option(CLI::App& command, Form& form);

/// --units.
void add_units_option(CLI::App& command, SizeUnit& units);

/// --json, --annotated, --trace, --units, --explain.
void add_output_options(CLI::App& command, OutputOptions& options);

/// --terms.
void add_terms_option(CLI::App& command, Terms& terms);

}  // namespace ridgetally
