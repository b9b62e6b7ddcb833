#pragma once

#include "chairside/placement.h"
#include "chairside/protocol.h"
#include "chairside/screening.h"
#include "session/values/views.h"
#include "ui/drafts/recheck_draft.h"
#include "ui/drafts/tile_face.h"

#include <span>

namespace gk::ui {

/// All that the mouth map is drawn from.
struct MouthView {
  dentition::Notation notation;
  std::span<const chairside::ToothFinding> findings{};
  std::span<const session::FieldState> fields{};
  std::span<const base::Recorded<chairside::Placement>> placements{}; ///< of the day
  std::span<const session::EarlierPlacement> earlier{};
  const RecheckDraft* checking = nullptr;           ///< the check that is being keyed in
  std::span<const dentition::ToothSurfaces> due{};  ///< of the step that comes now
  std::optional<dentition::ToothSurfaces> picked{}; ///< one surface under the cursor
};

/// The face of one tooth: today's work over what was found, over what earlier days left.
TileFace faceOf(const dentition::Tooth& tooth, const MouthView& view);

/// The eight permanent molars in chart order, then every other tooth that something is said of.
std::vector<TileFace> facesOf(const MouthView& view);

} // namespace gk::ui
