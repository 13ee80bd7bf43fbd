#pragma once

#include <opencv2/core.hpp>
#include <string>

#include "cli/exit_status.h"
#include "cli/shared_options.h"
#include "core/outcome.h"
#include "report/document.h"

namespace ridgetally {

/// Tells that a photo was not read or not measured: the document on standard output with --json where the
/// photo was refused, otherwise lines on standard error. Gives the status the program ends with.
[[nodiscard]] ExitStatus deliver_refusal(const Refusal& refusal, const PhotoOfCommand& photo, Form form);

/// Writes the annotated picture and complains where that fails.
[[nodiscard]] ExitStatus deliver_picture(const std::string& file, const cv::Mat& picture);

/// One line of a batch, for a photo that was not read or not measured.
[[nodiscard]] std::string refusal_line(const Refusal& refusal, const PhotoOfCommand& photo);

}  // namespace ridgetally
