#pragma once

#include "visits/chair.h"

namespace gk::demo {

// The visits of 17 November that are out of the ordinary; each in its own words in docs/cases.md.

/// Four sealed, nothing else.
ChildPlan fourFirsts(const std::string& grade);

/// Saliva touches the lower left molar after it was frosty.
void visitWithSaliva(const Chair& chair, roster::ChildId child);
/// The light's battery dies at 11 of 20 seconds; the spare goes on from zero.
void visitWithDeadBattery(const Chair& chair, roster::ChildId child, kit::LightId spare);
/// The lower right molar has a cavity.
void visitWithCavity(const Chair& chair, roster::ChildId child);
/// Refuses after two teeth.
void visitRefused(const Chair& chair, roster::ChildId child);
/// Three whole, upper left part and it lifts: a reseal.
void visitReseal(const Chair& chair, roster::ChildId child);
/// Hypomineralized upper molars; the light that is out of service is refused.
void visitOpacities(const Chair& chair, roster::ChildId child, kit::LightId outOfService);
/// Lower right partly up under a flap of gum: glass ionomer for now.
void visitInterim(const Chair& chair, roster::ChildId child);
/// Rosin varnish is refused, the one without is taken.
void visitWithoutRosin(const Chair& chair, roster::ChildId child);
/// A lot past its date is refused.
void visitWithExpiredLot(const Chair& chair, roster::ChildId child, kit::LotId expired);
/// Swelling: no sealants today, the mother is reached at the second try.
void visitUrgent(const Chair& chair, roster::ChildId child);

} // namespace gk::demo
