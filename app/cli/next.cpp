// washfast next NOTEBOOK-or-TABLE.csv
#include "app/cli/factor_source.h"
#include "app/cli/verb.h"
#include "app/cli/words.h"
#include "core/causes/answer_json.h"
#include "core/causes/next_prints.h"

namespace washfast::cli {

namespace {

QString settingsText(const causes::PlannedPrint& print)
{
    QStringList parts;
    for (const auto& setting : print.settings)
        parts << QStringLiteral("%1 %2").arg(setting.label, setting.spoken);
    return parts.join(QStringLiteral(", "));
}

QString roleText(const causes::PlannedPrint& print)
{
    using Role = causes::PlannedPrint::Role;
    switch (print.role) {
    case Role::KnownGood:
        return Words::tr("known good");
    case Role::Unexposed:
        return Words::tr("unexposed");
    case Role::Trial:
        break;
    }
    return print.split_sheet ? Words::tr("half sheets") : Words::tr("sheets");
}

QString purposeText(causes::Purpose purpose)
{
    switch (purpose) {
    case causes::Purpose::Untangle:
        return Words::tr("To do: untangle");
    case causes::Purpose::Decide:
        return Words::tr("To do: decide");
    case causes::Purpose::Map:
        break;
    }
    return Words::tr("To do: map");
}

void asText(const causes::NextPrints& plan, const Output& output)
{
    output.line(purposeText(plan.purpose));
    if (plan.prints_needed_for_power_80)
        output.line(Words::tr("Prints needed: %1").arg(*plan.prints_needed_for_power_80));
    if (plan.chance)
        output.line(Words::tr("Chance that they settle it: %1 %").arg(QString::number(*plan.chance * 100.0, 'f', 0)));
    output.line({});
    std::vector<QStringList> rows;
    for (const auto& print : plan.prints)
        rows.push_back({ QString::number(print.count), roleText(print), settingsText(print), print.why });
    output.table({ Words::tr("count"), Words::tr("as"), Words::tr("settings"), Words::tr("why") }, rows);
}

int runNext(const Arguments& arguments, const Output& output)
{
    if (const auto fault = questionFault(arguments); !fault.isEmpty())
        return output.misuse(fault);
    const auto table = factorTable(arguments);
    if (!table)
        return output.fail(table.error());
    causes::Options options;
    options.firth = false;
    const auto answer = causes::analyse(*table, options);
    const auto plan = causes::nextPrints(*table, answer);
    for (const auto& warning : plan.warnings)
        output.say(warning);
    if (arguments.has("--json"))
        output.json(causes::toJson(plan));
    else
        asText(plan, output);
    return done;
}

} // namespace

Verb nextVerb()
{
    auto options = factorOptions();
    options.push_back({ "--json", nullptr, QT_TRANSLATE_NOOP("Cli", "one JSON object") });
    return { "next", QT_TRANSLATE_NOOP("Cli", "the next prints to make, to untangle or to decide"),
        { { "NOTEBOOK-or-TABLE.csv" }, options }, runNext };
}

} // namespace washfast::cli
