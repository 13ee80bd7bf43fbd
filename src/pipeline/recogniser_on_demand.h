#pragma once

#include <filesystem>
#include <future>
#include <memory>

#include "recogniser/recogniser.h"
#include "recogniser/stitch_namer.h"

namespace ridgetally {

/// The recogniser's networks, each loaded when it is first asked for: most photos whose stitch is told never
/// need it, and loading costs as much as decoding the photo. Copies share it; asking from several threads is
/// safe.
class RecogniserOnDemand {
  public:
    explicit RecogniserOnDemand(std::filesystem::path folder);

    /// Null where the weights are missing or damaged: the plain method reads alone then.
    [[nodiscard]] const Recogniser* get() const;

    /// The network that names the stitch; null where its weights are missing or damaged.
    [[nodiscard]] const StitchNamer* namer() const;

    /// Begins to load it beside whatever comes next, for who is sure to ask. Waits for the end of the loading
    /// when it is let go.
    [[nodiscard]] std::future<void> loading() const;

  private:
    struct State;
    std::shared_ptr<State> state_;
};

}  // namespace ridgetally
