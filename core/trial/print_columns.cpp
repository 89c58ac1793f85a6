#include "core/trial/print_columns.h"

#include <algorithm>
#include <array>

namespace washfast {

namespace {
// What a bare word of a filter is looked for in.
constexpr std::array<const char*, 11> wordFields { "print_code", "mix_code", "paper_name", "session_code",
    "session_group", "print_maker", "print_method", "print_outcome", "cover_name", "negative_name", "print_notes" };
}

PrintColumns::PrintColumns(const Notebook& notebook)
    : reader_(notebook)
{
}

void PrintColumns::fill(PrintColumn& column, int field, int row) const
{
    const auto& f = notebook().catalogue().printFields()[size_t(field)];
    const auto known = reader_.get(row, field);
    const auto r = size_t(row);
    column.evidence[r] = known.evidence;
    double number = unknownNumber;
    switch (f.kind) {
    case Kind::Number:
    case Kind::YesNo:
        number = known.number().value_or(unknownNumber);
        break;
    case Kind::Time:
        if (const auto time = known.time())
            number = double(time->ms_utc);
        break;
    case Kind::Choice:
        if (const auto text = known.text())
            number = f.choiceIndex(*text);
        break;
    case Kind::Text:
    case Kind::ChoiceSet:
        column.texts[r] = known.text().value_or(QString());
        if (known.has())
            number = 0;
        break;
    case Kind::Link:
        break;
    }
    column.numbers[r] = number;
}

const PrintColumn& PrintColumns::column(int field) const
{
    auto& kept = columns_[field];
    if (!kept) {
        kept = std::make_unique<PrintColumn>();
        const auto& f = notebook().catalogue().printFields()[size_t(field)];
        const int rows = notebook().prints().rows();
        kept->numbers.resize(size_t(rows), unknownNumber);
        kept->evidence.resize(size_t(rows), f.nature);
        if (f.kind == Kind::Text || f.kind == Kind::ChoiceSet)
            kept->texts.resize(size_t(rows));
        for (int row = 0; row < rows; ++row)
            fill(*kept, field, row);
    }
    return *kept;
}

namespace {

std::vector<int> wordFieldsOf(const Catalogue& catalogue)
{
    std::vector<int> fields;
    for (const char* key : wordFields)
        if (const int index = catalogue.printField(QString::fromLatin1(key)); index >= 0)
            fields.push_back(index);
    return fields;
}

QString joinedWords(const PrintReader& reader, const std::vector<int>& fields, int row)
{
    const auto& print_fields = reader.notebook().catalogue().printFields();
    QString all;
    for (const int index : fields) {
        const auto text = reader.get(row, index).text();
        if (!text)
            continue;
        const auto& field = print_fields[size_t(index)];
        if (field.kind == Kind::ChoiceSet) {
            for (const auto& part : splitSet(*text))
                all += field.choiceLabel(part) + QLatin1Char(' ');
        } else {
            all += (field.kind == Kind::Choice ? field.choiceLabel(*text) : *text) + QLatin1Char(' ');
        }
    }
    return all.toLower();
}

} // namespace

QString PrintColumns::wordsOf(int row) const
{
    return joinedWords(reader_, wordFieldsOf(notebook().catalogue()), row);
}

const std::vector<QString>& PrintColumns::words() const
{
    if (!words_fresh_) {
        const auto fields = wordFieldsOf(notebook().catalogue());
        const int rows = notebook().prints().rows();
        words_.resize(size_t(rows));
        for (int row = 0; row < rows; ++row)
            words_[size_t(row)] = joinedWords(reader_, fields, row);
        words_fresh_ = true;
    }
    return words_;
}

void PrintColumns::refresh(const std::vector<int>& print_rows)
{
    const int rows = notebook().prints().rows();
    auto wanted = print_rows;
    std::sort(wanted.begin(), wanted.end());
    wanted.erase(std::unique(wanted.begin(), wanted.end()), wanted.end());
    if (wanted.empty())
        return;
    // Rows may have been added at the end, all of them among these; one added or taken away elsewhere has moved those
    // behind it.
    const auto keeps = [&](size_t held) {
        const auto first_new = std::lower_bound(wanted.begin(), wanted.end(), int(held));
        return int(held) <= rows && wanted.end() - first_new == rows - int(held);
    };
    bool all = wanted.front() >= 0 && wanted.back() < rows && (!words_fresh_ || keeps(words_.size()));
    for (const auto& [field, column] : columns_)
        all = all && keeps(column->numbers.size());
    if (!all) {
        forget();
        return;
    }
    for (auto& [field, column] : columns_) {
        column->numbers.resize(size_t(rows), unknownNumber);
        column->evidence.resize(size_t(rows));
        const auto kind = notebook().catalogue().printFields()[size_t(field)].kind;
        if (kind == Kind::Text || kind == Kind::ChoiceSet)
            column->texts.resize(size_t(rows));
        for (const int row : wanted)
            fill(*column, field, row);
    }
    if (words_fresh_) {
        words_.resize(size_t(rows));
        for (const int row : wanted)
            words_[size_t(row)] = wordsOf(row);
    }
}

void PrintColumns::forget()
{
    columns_.clear();
    words_.clear();
    words_fresh_ = false;
}

} // namespace washfast
