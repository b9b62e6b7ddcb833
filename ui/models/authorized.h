#pragma once

#include "ui/models/chair_file.h"

/// What was found beside what a dentist authorized. All of it is empty or lets everything be where
/// the program does not wait for a dentist.
namespace gk::ui {

/// Of the teeth chosen for treatment, the surfaces that no dentist has authorized.
std::vector<dentition::ToothSurfaces>
notAuthorized(const ChairFile& file, const std::vector<chairside::ToothFinding>& teeth);

/// The findings without those teeth: a tooth waits whole, or part of it would be forgotten.
std::vector<chairside::ToothFinding> mayPlace(const ChairFile& file,
                                              std::vector<chairside::ToothFinding> teeth);

/// "Authorized 4, found 5. NOT AUTHORIZED: ...: call the dentist. Authorized and not chosen: ...".
std::string againstAuthorized(const ChairFile& file,
                              const std::vector<chairside::ToothFinding>& teeth);

} // namespace gk::ui
