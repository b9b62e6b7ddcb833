#pragma once

#include "estimates/attack_rate/attack_rate.h"
#include "estimates/compare/comparison.h"
#include "estimates/compare/shrinkage.h"
#include "estimates/shares/retention.h"
#include "estimates/survival/survival_curve.h"
#include "office/call/verbs.h"
#include "office/tables/json_writer.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gk::office {

/// What the estimate verbs have in common.

inline constexpr std::string_view whatTheySpeakOf =
    "Estimates speak of programs, never of one child.";

std::string percent(double share);
std::string range(double low, double high); ///< of shares: "59.0 to 93.0 %"

/// The named file, or standard input for "-" and for none.
base::Result<std::string> tableText(const Call& call, const Surroundings& around);

/// The numbers of an option such as "0.025,0.975"; empty when it was not given. Fails with
/// `numberMalformed`, naming the option.
base::Result<std::vector<double>> numbers(const Call& call, std::string_view option);

/// What an answer has to be read with, each a sentence; the same in words and under "notes".
std::vector<std::string> sentences(std::span<const estimates::RetentionNote> notes);
std::vector<std::string> sentences(std::span<const estimates::AttackRateNote> notes);
std::vector<std::string> sentences(std::span<const estimates::SurvivalNote> notes);
std::vector<std::string> sentences(std::span<const estimates::ComparisonNote> notes);
std::vector<std::string> sentences(std::span<const estimates::ShrinkageNote> notes);

void tell(const std::vector<std::string>& sentences, std::ostream& out);

/// A line twice in a table is as a rule a mistake, and never one to pass over.
void tellRepeated(std::size_t rows, std::string_view what, std::ostream& out);

} // namespace gk::office
