#include "core/causes/from_notebook.h"

#include "core/causes/phrases.h"
#include "core/causes/settings.h"
#include "core/causes/words.h"

#include <algorithm>
#include <cmath>

namespace washfast::causes {

namespace {

Error bad(const QString& says)
{
    return { Trouble::BadInput, says, {} };
}

class Making {
public:
    Making(const PrintColumns& columns, const NotebookChoices& choices)
        : columns_(columns)
        , choices_(choices)
        , catalogue_(columns.notebook().catalogue())
    {
    }

    Result<FactorTable> run()
    {
        if (const auto error = chooseRows())
            return *error;
        if (const auto error = takeOutcome())
            return *error;
        if (const auto error = takeFactors())
            return *error;
        if (const auto error = takeBlocks())
            return *error;
        takeBatches();
        takeTones();
        takeSigns();
        const int code = catalogue_.printField(catalogue_.identity(Entity::Print)->key);
        for (const int row : rows_)
            table_.prints.push_back(columns_.column(code).texts[size_t(row)]);
        return std::move(table_);
    }

private:
    [[nodiscard]] static bool marked(const std::vector<char>& marks, int row)
    {
        return size_t(row) < marks.size() && marks[size_t(row)] != 0;
    }

    std::optional<Error> chooseRows()
    {
        const int all = columns_.notebook().prints().rows();
        int failed = 0;
        int kept = 0;
        for (int row = 0; row < all; ++row) {
            const bool here = choices_.shown.empty() || marked(choices_.shown, row);
            const bool there = marked(choices_.against, row);
            if (!choices_.against.empty() && here && there)
                return bad(
                    Words::tr("A print cannot be in both groups: %1 is.")
                        .arg(columns_.notebook().nameOf({ Entity::Print, columns_.notebook().prints().id(row) })));
            if (!here && !there)
                continue;
            rows_.push_back(row);
            failed += here ? 1 : 0;
            kept += there ? 1 : 0;
            group_.push_back(here ? 1.0 : 0.0);
        }
        if (failed == 0)
            return bad(Words::tr("There are no prints to look at."));
        if (!choices_.against.empty() && kept == 0)
            return bad(Words::tr("There are no prints to compare with."));
        return std::nullopt;
    }

    Result<int> fieldOf(const QString& key, const QString& what) const
    {
        if (const int index = catalogue_.printField(key); index >= 0)
            return index;
        return bad(Words::tr("There is no field %1 for %2.").arg(key, what));
    }
    [[nodiscard]] const Field& field(int index) const { return catalogue_.printFields()[size_t(index)]; }

    [[nodiscard]] std::vector<std::optional<double>> numbers(int index) const
    {
        const auto& column = columns_.column(index).numbers;
        std::vector<std::optional<double>> values;
        for (const int row : rows_) {
            const double value = column[size_t(row)];
            values.push_back(std::isnan(value) ? std::nullopt : std::optional(value));
        }
        return values;
    }
    /// The text of each print, or the key of its choice; null when it is not known.
    [[nodiscard]] std::vector<QString> texts(int index) const
    {
        const auto& column = columns_.column(index);
        std::vector<QString> values;
        for (const int row : rows_) {
            const auto r = size_t(row);
            if (std::isnan(column.numbers[r]))
                values.emplace_back();
            else if (field(index).kind == Kind::Choice)
                values.push_back(field(index).choices[size_t(column.numbers[r])].key);
            else
                values.push_back(column.texts[r]);
        }
        return values;
    }

    std::optional<Error> takeOutcome()
    {
        if (!choices_.against.empty()) {
            table_.outcome = Words::tr("failed");
            table_.outcome_values.assign(group_.begin(), group_.end());
            return std::nullopt;
        }
        const auto index = fieldOf(choices_.outcome, Words::tr("the outcome"));
        if (!index)
            return index.error();
        const auto& wanted = field(*index);
        outcome_ = *index;
        if (wanted.kind != Kind::YesNo && wanted.kind != Kind::Number)
            return bad(Words::tr("%1 is neither a yes/no nor a number, so it cannot be the outcome.").arg(wanted.key));
        table_.outcome = wanted.key;
        table_.outcome_label = wanted.label;
        table_.outcome_unit = wanted.unit;
        table_.outcome_is_number = wanted.kind == Kind::Number;
        table_.larger_is_worse = choices_.larger_is_worse;
        table_.outcome_values = numbers(*index);
        if (wanted.key == QLatin1String("is_kept")) {
            for (auto& value : table_.outcome_values)
                if (value)
                    value = 1.0 - *value;
            table_.warnings << Words::tr("The outcome is_kept is taken the other way round: no is failed.");
        }
        if (std::none_of(table_.outcome_values.begin(), table_.outcome_values.end(),
                [](const auto& value) { return value.has_value(); }))
            return bad(Words::tr("The outcome %1 is not known for any of these prints.").arg(wanted.key));
        return std::nullopt;
    }

    std::optional<Error> takeFactors()
    {
        std::vector<int> wanted;
        for (const auto& key : choices_.factors) {
            const auto index = fieldOf(key, Words::tr("a factor"));
            if (!index)
                return index.error();
            const auto kind = field(*index).kind;
            if (kind == Kind::Time || kind == Kind::ChoiceSet || kind == Kind::Link)
                return bad(Words::tr("%1 cannot be a factor: its kind is “%2”.").arg(key, kindLabel(kind)));
            if (*index == outcome_)
                return bad(Words::tr("%1 cannot be the outcome and a factor.").arg(key));
            wanted.push_back(*index);
        }
        if (choices_.factors.isEmpty())
            for (int i = 0; i < int(catalogue_.printFields().size()); ++i)
                if (field(i).factor && i != outcome_)
                    wanted.push_back(i);
        QStringList rough;
        for (const int index : wanted)
            takeFactor(index, rough);
        if (!rough.isEmpty())
            table_.warnings
                << Words::tr("Estimated or assumed for some prints: %1.").arg(rough.join(QStringLiteral(", ")));
        return std::nullopt;
    }

    void takeFactor(int index, QStringList& rough)
    {
        const auto& wanted = field(index);
        Factor factor;
        factor.name = wanted.key;
        factor.label = wanted.label;
        factor.unit = wanted.unit;
        factor.meaning = meaningOf(wanted);
        for (const auto& choice : wanted.choices)
            factor.level_labels.insert(choice.key, choice.label);
        bool any = false;
        if (wanted.kind == Kind::Number || wanted.kind == Kind::YesNo) {
            factor.kind = wanted.kind == Kind::Number ? Factor::Kind::Number : Factor::Kind::YesNo;
            factor.numbers = numbers(index);
            any = std::any_of(
                factor.numbers.begin(), factor.numbers.end(), [](const auto& value) { return value.has_value(); });
        } else {
            factor.kind = Factor::Kind::Choice;
            factor.texts = texts(index);
            any = std::any_of(
                factor.texts.begin(), factor.texts.end(), [](const QString& text) { return !text.isNull(); });
        }
        if (!any && choices_.factors.isEmpty())
            return; // nothing to say about what nobody recorded
        const auto& column = columns_.column(index);
        const auto weak = std::count_if(rows_.begin(), rows_.end(), [&](int row) {
            return !std::isnan(column.numbers[size_t(row)]) && column.evidence[size_t(row)] > wanted.nature;
        });
        if (weak > 0)
            rough << Words::tr("%1 (%2 of %3)").arg(wanted.label).arg(weak).arg(rows_.size());
        table_.factors.push_back(std::move(factor));
    }

    std::optional<Error> takeBlocks()
    {
        if (choices_.block.isEmpty())
            return std::nullopt;
        const auto index = fieldOf(choices_.block, Words::tr("the blocks"));
        if (!index)
            return index.error();
        const auto kind = field(*index).kind;
        if (kind == Kind::Time || kind == Kind::ChoiceSet)
            return bad(Words::tr("%1 cannot make blocks: its kind is “%2”.").arg(choices_.block, kindLabel(kind)));
        if (kind == Kind::Number || kind == Kind::YesNo)
            for (const auto& value : numbers(*index))
                table_.blocks.push_back(value ? QString::number(*value) : QString());
        else
            table_.blocks = texts(*index);
        return std::nullopt;
    }

    /// A bottle of mix, a tray of one lesson, a lesson.
    void takeBatches()
    {
        const auto of = [&](const char* key) {
            const int index = catalogue_.printField(QString::fromLatin1(key));
            return index < 0 ? std::vector<QString>(rows_.size()) : texts(index);
        };
        const auto mixes = of("mix_code");
        const auto sessions = of("session_code");
        auto trays = of("rinse_tray");
        for (size_t i = 0; i < trays.size(); ++i)
            if (!trays[i].isNull())
                trays[i] += QLatin1Char('/') + sessions[i];
        const auto add = [&](const char* key, const QString& label, const std::vector<QString>& values) {
            if (std::any_of(values.begin(), values.end(), [](const QString& text) { return !text.isNull(); }))
                table_.batches.push_back({ QString::fromLatin1(key), label, values });
        };
        add("session_code", Words::tr("lesson"), sessions);
        add("mix_code", Words::tr("mix"), mixes);
        add("rinse_tray", Words::tr("tray"), trays);
    }

    void takeTones()
    {
        for (const auto& [key, tones] : { std::pair("formed", &table_.formed), std::pair("kept", &table_.kept) })
            if (const int index = catalogue_.printField(QString::fromLatin1(key)); index >= 0)
                *tones = numbers(index);
    }

    void takeSigns()
    {
        const int index = catalogue_.printField(QStringLiteral("signs_seen"));
        if (index < 0)
            return;
        for (const auto& text : texts(index))
            table_.signs.push_back(splitSet(text));
        for (const auto& choice : field(index).choices)
            table_.sign_labels.insert(choice.key, choice.label);
    }

    const PrintColumns& columns_;
    const NotebookChoices& choices_;
    const Catalogue& catalogue_;
    FactorTable table_;
    std::vector<int> rows_; // of the print table
    std::vector<double> group_; // 1: one of those that failed
    int outcome_ = -1;
};

} // namespace

Result<FactorTable> fromNotebook(const PrintColumns& columns, const NotebookChoices& choices)
{
    return Making(columns, choices).run();
}

} // namespace washfast::causes
