#pragma once

#include "session/cards/identity.h"
#include "ui/asking/context.h"

#include <string>

namespace gk::ui {

/// A phone that was corrected is the same guardian's for brothers and sisters: asked once, for all
/// of them. The student's own details are saved by then. What came of it, to be said behind that;
/// empty where no other student has the old phone.
QString phoneOfSiblings(Context& context, base::By by, roster::ChildId child,
                        const session::Identity& before, const session::Identity& after,
                        const std::string& reason);

} // namespace gk::ui
