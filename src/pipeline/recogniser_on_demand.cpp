#include "pipeline/recogniser_on_demand.h"

#include <mutex>
#include <optional>
#include <utility>

namespace ridgetally {

struct RecogniserOnDemand::State {
    std::filesystem::path folder;
    std::once_flag asked;
    std::optional<Recogniser> recogniser;
    std::once_flag namer_asked;
    std::optional<StitchNamer> namer;
};

RecogniserOnDemand::RecogniserOnDemand(std::filesystem::path folder) : state_(std::make_shared<State>()) {
    state_->folder = std::move(folder);
}

const Recogniser* RecogniserOnDemand::get() const {
    std::call_once(state_->asked, [&] {
        auto loaded = load_recogniser(state_->folder);
        if (loaded) state_->recogniser = std::move(loaded).value();
    });
    return state_->recogniser ? &*state_->recogniser : nullptr;
}

const StitchNamer* RecogniserOnDemand::namer() const {
    std::call_once(state_->namer_asked, [&] {
        auto loaded = load_stitch_namer(state_->folder);
        if (loaded) state_->namer = std::move(loaded).value();
    });
    return state_->namer ? &*state_->namer : nullptr;
}

std::future<void> RecogniserOnDemand::loading() const {
    return std::async(std::launch::async, [copy = *this] { (void)copy.get(); });
}

}  // namespace ridgetally
