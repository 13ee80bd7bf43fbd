#pragma once

#include <string>

#include "cli/exit_status.h"
#include "core/outcome.h"
#include "image/file_bytes.h"

namespace ridgetally {

/// Writes a file whole or not at all; "-" is standard output. Refusal: io.
[[nodiscard]] Outcome<ExitStatus> write_text_file(const std::string& file, const std::string& text,
                                                  Durability durability);

}  // namespace ridgetally
