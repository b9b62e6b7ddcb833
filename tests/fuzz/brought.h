#pragma once

#include "fuzz/targets.h"

// What a person brings, scans or types, and papers that were sealed.
namespace gk::test {

/// The wording of a consent form, as a program writes it: whatever is taken can be filled in.
void consentForm(FuzzBytes bytes);
std::vector<std::string> consentForms();

/// What a scanner sends, and codes that are typed from a sheet of paper.
void scanned(FuzzBytes bytes);
std::vector<std::string> scans();

void typed(FuzzBytes bytes);
std::vector<std::string> words();

/// Papers for the office, which only their logbook opens.
void sealedPapers(FuzzBytes bytes);
std::vector<std::string> seals();

} // namespace gk::test
