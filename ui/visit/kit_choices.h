#pragma once

#include "ui/visit/chair_visit.h"

namespace gk::ui {

/// Each asks in the ask bar and changes the setup that is carried on; earlier teeth keep what they
/// were done with.

/// Lots that may be used on this child today; says how many were left out, and why.
void chooseLot(ChairVisit& visit);
/// The lot whose number was scanned, after one confirm; asks which when several materials have that
/// number, and says why when it cannot be used. False when no lot of the book has it.
bool offerLot(ChairVisit& visit, const QString& code);
/// A lot that was just added, from now on; says why where it may not be used on this child today.
void carryLot(ChairVisit& visit, kit::LotId id);
void chooseLight(ChairVisit& visit);
/// Operator, assistant or recorder.
void chooseTeam(ChairVisit& visit);
void chooseIsolation(ChairVisit& visit);
/// Who or what holds cheek and tongue; it differs by corner and may predict what is lost.
void chooseHolders(ChairVisit& visit);
/// Two or four, for this child; four only where someone assists.
void changeHands(ChairVisit& visit);

/// "Resin Fern lot RF-2609, Etch Thistle lot ET-0931, light L-1, cotton rolls with holders,
/// four-handed".
QString setupWords(const ChairVisit& visit);
enum class KitWords { all, ofThisChild };
/// In a line what is in use besides the lot and the light, which stand on their keys; without what
/// is as usual on the day where it is `ofThisChild`.
QString otherKitWords(const ChairVisit& visit, KitWords which = KitWords::all);
/// What a key says of the lot and the light that are used now; "none" where none is.
QString lotWords(const ChairVisit& visit);
QString lightWords(const ChairVisit& visit);

} // namespace gk::ui
