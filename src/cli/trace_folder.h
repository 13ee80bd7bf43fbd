#pragma once

#include <opencv2/core.hpp>
#include <optional>
#include <string>

#include "cli/exit_status.h"
#include "pipeline/trace.h"

namespace ridgetally {

/// A folder that the stages' pictures and notes go to: NN-name.png in the order they were made, and
/// notes.txt. What cannot be written does not stop the measurement; status() tells.
class TraceFolder {
  public:
    /// None: nothing is traced.
    explicit TraceFolder(std::optional<std::string> folder);

    TraceFolder(const TraceFolder&) = delete;
    TraceFolder& operator=(const TraceFolder&) = delete;

    /// To be handed to the stages; lives as long as this object.
    [[nodiscard]] Trace& trace() { return trace_; }

    /// Writes the notes. Ok, or io where anything could not be written.
    [[nodiscard]] ExitStatus finish();

  private:
    void keep(const std::string& name, const cv::Mat& picture);
    void note_fault(const std::string& message);

    std::optional<std::string> folder_;
    Trace trace_;
    std::string notes_;
    int pictures_ = 0;
    std::string first_fault_;
};

}  // namespace ridgetally
