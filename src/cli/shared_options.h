#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>

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

/// --ruler, --scale, --reference, --ruler-correction.
void add_scale_options(CLI::App& command, ScaleOptions& options);

/// --json.
void add_json_option(CLI::App& command, Form& form);

/// --json, --annotated, --trace, --units, --explain.
void add_output_options(CLI::App& command, OutputOptions& options);

/// --terms.
void add_terms_option(CLI::App& command, OutputOptions& options);

}  // namespace ridgetally
