#pragma once

#include "scale/ruler_line.h"

namespace ridgetally {

/// Fits the row of marks and takes out strokes that do not belong to it: off their place by more than a real
/// mark is, much fainter than their neighbours, starting elsewhere than their neighbours, or lonely beyond
/// the end. Fills everything of `line` but frame, polarity, marks and evidence.
void keep_true_marks(RulerLine& line);

}  // namespace ridgetally
