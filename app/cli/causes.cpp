// washfast causes NOTEBOOK-or-TABLE.csv
#include "app/cli/factor_source.h"
#include "app/cli/verb.h"
#include "app/cli/words.h"
#include "core/causes/answer_json.h"
#include "core/causes/phrases.h"

#include <algorithm>

namespace washfast::cli {

namespace {

QString shortNumber(const std::optional<double>& value)
{
    return value ? QString::number(*value, 'g', 3) : QString();
}

QString verdictText(causes::Verdict verdict)
{
    switch (verdict) {
    case causes::Verdict::Cause:
        return Words::tr("Answer: a cause");
    case causes::Verdict::Tangle:
        return Words::tr("Answer: a tangle");
    case causes::Verdict::NotEnough:
        break;
    }
    return Words::tr("Answer: not enough to say");
}

void asText(const causes::Answer& answer, const Output& output)
{
    output.line(verdictText(answer.verdict));
    if (!answer.factors_named.isEmpty())
        output.line(Words::tr("Named: %1").arg(answer.factors_named.join(QStringLiteral(", "))));
    output.line(answer.why);
    const auto list = [&](const QString& heading, const QStringList& sentences) {
        if (sentences.isEmpty())
            return;
        output.line({});
        output.line(heading);
        for (const auto& sentence : sentences)
            output.line(QStringLiteral("  - ") + sentence);
    };
    list(Words::tr("For it:"), answer.evidence_for);
    list(Words::tr("Against it:"), answer.evidence_against);
    list(Words::tr("Also:"),
        QStringList { answer.tones.says, answer.rival_would_show, answer.unit_says }.filter(QStringLiteral(" ")));
    output.line({});
    std::vector<QStringList> rows;
    for (const auto& factor : answer.factors) {
        QStringList others;
        constexpr size_t most = 3; // the strongest; --json has them all
        for (size_t i = 0; i < std::min(most, factor.moves_with.size()); ++i)
            others << factor.moves_with[i].name;
        if (factor.moves_with.size() > most)
            others << QStringLiteral("+%1").arg(factor.moves_with.size() - most);
        const QString interval = factor.difference_low && factor.difference_high
            ? Words::tr("%1 to %2").arg(shortNumber(factor.difference_low), shortNumber(factor.difference_high))
            : QString();
        rows.push_back({ factor.name, QString::number(factor.n_known), shortNumber(factor.difference), interval,
            shortNumber(factor.p_exact), causes::methodLabel(factor.p_method), shortNumber(factor.p_adjusted),
            others.join(QStringLiteral(", ")) });
    }
    output.table({ Words::tr("factor"), QStringLiteral("n"), Words::tr("difference"), Words::tr("interval"),
                     QStringLiteral("p"), Words::tr("by"), Words::tr("p adjusted"), Words::tr("moves with") },
        rows);
    if (const auto& model = answer.firth_model ? answer.firth_model : answer.linear_model) {
        output.line({});
        if (!model->note.isEmpty())
            output.line(model->note);
        std::vector<QStringList> terms;
        for (qsizetype i = 0; i < model->terms.size(); ++i) {
            const auto& value = model->values[size_t(i)];
            const auto& term = model->terms[i];
            terms.push_back({ term == QLatin1String("(intercept)") ? Words::tr("(intercept)") : term,
                shortNumber(value.estimate), shortNumber(value.low), shortNumber(value.high), shortNumber(value.p) });
        }
        output.table({ Words::tr("term"), model->linear ? Words::tr("change") : Words::tr("log odds"), Words::tr("low"),
                         Words::tr("high"), QStringLiteral("p") },
            terms);
    }
}

int runCauses(const Arguments& arguments, const Output& output)
{
    if (const auto fault = questionFault(arguments); !fault.isEmpty())
        return output.misuse(fault);
    const auto table = factorTable(arguments);
    if (!table)
        return output.fail(table.error());
    causes::Options options;
    options.model = arguments.list("--model");
    for (const auto& name : options.model)
        if (std::none_of(table->factors.begin(), table->factors.end(),
                [&](const causes::Factor& factor) { return factor.name == name; }))
            return output.misuse(Words::tr("%1 of --model is no factor here.").arg(name));
    const auto answer = causes::analyse(*table, options);
    for (const auto& warning : answer.warnings)
        output.say(warning);
    if (arguments.has("--json"))
        output.json(causes::toJson(answer));
    else
        asText(answer, output);
    return done;
}

} // namespace

Verb causesVerb()
{
    auto options = factorOptions();
    options.push_back({ "--model", "A,B,C", QT_TRANSLATE_NOOP("Cli", "fits exactly these together") });
    options.push_back({ "--json", nullptr, QT_TRANSLATE_NOOP("Cli", "one JSON object") });
    return { "causes", QT_TRANSLATE_NOOP("Cli", "why prints failed, as far as these prints can tell"),
        { { "NOTEBOOK-or-TABLE.csv" }, options }, runCauses };
}

} // namespace washfast::cli
