// What each row of a table would become.
#include "core/exchange/import.h"

#include "core/exchange/contradictions.h"
#include "core/exchange/import_cells.h"
#include "core/exchange/import_known.h"
#include "core/exchange/import_plan.h"
#include "core/exchange/words.h"

#include <QSet>
#include <algorithm>

namespace washfast::exchange {

namespace {

class Previewing {
public:
    Previewing(const DelimitedTable& table, const ImportMapping& mapping, const Notebook& notebook,
        const ImportOptions& options)
        : table_(table)
        , catalogue_(notebook.catalogue())
        , fields_(catalogue_.printFields())
        , options_(options)
        , known_(notebook)
        , records_(notebook)
        , planner_(catalogue_, records_)
        , code_field_(catalogue_.printField(catalogue_.identity(Entity::Print)->key))
    {
        out_.mapping = mapping;
    }

    ImportPreview run()
    {
        if (table_.readable())
            out_.faults = out_.mapping.faults();
        for (const auto& note : table_.notes) {
            if (note.weight() == TableNoteWeight::Refusal)
                out_.faults << note.sentence();
            else if (note.weight() == TableNoteWeight::Warning)
                out_.warnings << note.sentence();
        }
        readEveryRow();
        if (!out_.faults.isEmpty())
            return std::move(out_);
        decideMarks();
        for (const auto& row : table_.rows)
            take(row);
        nameRows();
        for (int i = 0; i < records_.count(); ++i)
            out_.records.push_back(records_.at(i));
        return std::move(out_);
    }

private:
    [[nodiscard]] const MappedColumn& column(int index) const { return out_.mapping.columns[size_t(index)]; }
    [[nodiscard]] QString heading(int column_index) const
    {
        return column_index < 0 ? QString() : column(column_index).heading;
    }
    [[nodiscard]] QString headingOf(const QString& key) const
    {
        const int index = catalogue_.printField(key);
        const int at = out_.mapping.columnOf(index);
        return at >= 0 ? heading(at) : index >= 0 ? fields_[size_t(index)].label : key;
    }
    void refuse(ImportRow& row, const QString& where, const QString& says)
    {
        row.state = ImportRow::State::Refused;
        row.refusals.push_back({ row.line, where, says });
    }

    // ---- Before the rows

    void readEveryRow()
    {
        for (const auto& [key, typed] : options_.every_row) {
            const int index = catalogue_.printField(key);
            const QString where = QStringLiteral("%1=%2: ").arg(key, typed);
            if (index < 0 || !isImportable(fields_[size_t(index)])) {
                out_.faults << where + Words::tr("there is no field of this name that a table can hold.");
                continue;
            }
            const bool twice = std::any_of(
                every_row_.begin(), every_row_.end(), [&](const auto& given) { return given.first == index; });
            if (twice || index == code_field_ || out_.mapping.columnOf(index) >= 0) {
                out_.faults << where + Words::tr("this cannot be the same for every row.");
                continue;
            }
            CellReading how;
            how.zone = options_.zone;
            how.any_size = options_.any_size;
            const auto known = readCell(fields_[size_t(index)], typed, how);
            if (!known)
                out_.faults << where + known.error().says;
            else if (known->has())
                every_row_.emplace_back(index, *known);
        }
    }

    /// One person typed the whole table: a column that leaves its decimal mark open follows the others.
    void decideMarks()
    {
        marks_.assign(out_.mapping.columns.size(), DecimalMark::Undecided);
        bool point = false;
        bool comma = false;
        for (size_t i = 0; i < marks_.size(); ++i) {
            const auto& mapped = out_.mapping.columns[i];
            if (mapped.use != ColumnUse::Field || fields_[size_t(mapped.field)].kind != Kind::Number)
                continue;
            QStringList cells;
            for (const auto& row : table_.rows)
                if (!row.faulty)
                    cells << row.cells.value(qsizetype(i));
            marks_[i] = decideDecimalMark(cells).mark;
            point = point || marks_[i] == DecimalMark::Point || marks_[i] == DecimalMark::Mixed;
            comma = comma || marks_[i] == DecimalMark::Comma || marks_[i] == DecimalMark::Mixed;
            if (marks_[i] == DecimalMark::Mixed)
                out_.warnings << Words::tr(
                    "“%1” has decimal points and decimal commas; what can be read in two ways is refused.")
                                     .arg(mapped.heading);
        }
        if (point == comma)
            return;
        for (auto& mark : marks_)
            if (mark == DecimalMark::Undecided)
                mark = point ? DecimalMark::Point : DecimalMark::Comma;
    }

    // ---- One row

    void take(const TableRow& source)
    {
        auto& row = out_.rows.emplace_back();
        row.line = source.line;
        if (source.faulty) {
            refuseFaulty(row);
            return;
        }
        readCells(row, source);
        const bool coded = out_.mapping.columnOf(code_field_) >= 0;
        if (coded && row.code.isEmpty() && row.refusals.empty())
            refuse(row, headingOf(fields_[size_t(code_field_)].key), Words::tr("The row has no code."));
        if (!row.code.isEmpty()) {
            if (const auto earlier = lines_.constFind(foldedName(row.code)); earlier != lines_.constEnd())
                refuse(row, headingOf(fields_[size_t(code_field_)].key),
                    Words::tr("The code %1 stands in line %2 already.").arg(row.code, QString::number(*earlier)));
            else
                lines_.insert(foldedName(row.code), row.line);
        }
        if (row.state == ImportRow::State::Refused)
            return;
        row.mark = numbered(known_.markOf(row.values), row);
        if (known_.hasMark(row.mark)) {
            row.state = ImportRow::State::AlreadyThere;
            return;
        }
        if (const auto there = known_.byCode(row.code); there && !row.code.isEmpty()) {
            compare(row, *there);
            return;
        }
        plan(row);
    }

    void refuseFaulty(ImportRow& row)
    {
        row.state = ImportRow::State::Refused;
        const auto next = std::upper_bound(table_.rows.begin(), table_.rows.end(), row.line,
            [](qsizetype line, const TableRow& other) { return line < other.line; });
        for (const auto& note : table_.notes)
            if (note.weight() == TableNoteWeight::Error && note.line >= row.line
                && (next == table_.rows.end() || note.line < next->line))
                refuse(row, {}, note.says);
        if (row.refusals.empty())
            refuse(row, {}, Words::tr("The row cannot be read; the file has many such rows."));
    }

    void readCells(ImportRow& row, const TableRow& source)
    {
        CellReading how;
        how.zone = options_.zone;
        how.any_size = options_.any_size;
        day_.reset();
        if (const int at = out_.mapping.columnFor(ColumnUse::Day); at >= 0) {
            if (const auto day = readDay(source.cells.value(at)); day)
                day_ = *day;
            else {
                refuse(row, heading(at), day.error().says);
                how.day_refused = true;
            }
        }
        const int session_start = catalogue_.printField(u"session_start");
        if (const int at = out_.mapping.columnOf(session_start); !day_ && at >= 0)
            if (const auto moment = parseMoment(source.cells.value(at)); moment.ok())
                day_ = moment.date;
        how.day = day_;
        const auto evidence = evidenceOf(row, source);
        row.values = every_row_;
        for (int i = 0; i < int(source.cells.size()) && i < int(out_.mapping.columns.size()); ++i) {
            const auto& mapped = column(i);
            if (mapped.use != ColumnUse::Field)
                continue;
            const auto& field = fields_[size_t(mapped.field)];
            how.mark = marks_[size_t(i)];
            how.unit = mapped.unit;
            auto known = readCell(field, source.cells[i], how);
            if (!known) {
                refuse(row, mapped.heading, known.error().says);
                continue;
            }
            if (!known->has())
                continue;
            if (evidence && known->evidence == field.nature)
                known->evidence = evidence->value(field.key, Evidence::Measured);
            if (mapped.field == code_field_)
                row.code = known->text().value_or(QString());
            row.values.emplace_back(mapped.field, std::move(known).value());
        }
        startFromDay(row, session_start);
    }

    /// A session whose start is not given began on the day of its rows.
    void startFromDay(ImportRow& row, int session_start)
    {
        const auto given = [&](int field) {
            return std::any_of(
                row.values.begin(), row.values.end(), [&](const auto& value) { return value.first == field; });
        };
        day_only_
            = session_start >= 0 && day_ && !given(session_start) && given(catalogue_.printField(u"session_code"));
        if (day_only_)
            row.values.emplace_back(
                session_start, Known { Instant::from(day_->startOfDay(options_.zone)), Evidence::Estimated });
    }

    /// By field, when the table has a column about it.
    std::optional<QHash<QString, Evidence>> evidenceOf(ImportRow& row, const TableRow& source)
    {
        const int at = out_.mapping.columnFor(ColumnUse::NotMeasured);
        if (at < 0)
            return std::nullopt;
        const auto read = readNotMeasured(source.cells.value(at));
        if (!read) {
            refuse(row, heading(at), read.error().says);
            return std::nullopt;
        }
        for (auto it = read->begin(); it != read->end(); ++it)
            if (catalogue_.printField(it.key()) < 0)
                refuse(row, heading(at), Words::tr("There is no field %1.").arg(it.key()));
        return *read;
    }

    /// The same contents may stand in several rows without a code: each is a print of its own.
    QString numbered(const QString& mark, const ImportRow& row)
    {
        auto& seen = contents_[mark];
        seen.push_back(row.line);
        if (seen.size() == 1)
            return mark;
        out_.warnings << Words::tr("Line %1 says the same as line %2; both are taken as prints of their own.")
                             .arg(row.line)
                             .arg(seen.front());
        return QStringLiteral("%1-%2").arg(mark).arg(seen.size());
    }

    /// A print of this code is there: the row says the same, or it is refused.
    void compare(ImportRow& row, int print_row)
    {
        KnownPrints::Comparing how;
        how.evidence_given = out_.mapping.columnFor(ColumnUse::NotMeasured) >= 0;
        if (day_only_)
            how.session_day = day_;
        row.state = ImportRow::State::AlreadyThere;
        if (const auto other = known_.difference(print_row, row.code, row.values, how))
            refuse(row, headingOf(fields_[size_t(other->field)].key), other->says);
    }

    void plan(ImportRow& row)
    {
        const std::function<Known(const QString&)> get = [&](const QString& key) {
            const int index = catalogue_.printField(key);
            for (const auto& [field, known] : row.values)
                if (field == index)
                    return known;
            return planner_.alreadyHeld(row.values, index);
        };
        for (const auto& one : contradictions(catalogue_, get))
            if (one.impossible || (one.too_long && !options_.any_size))
                refuse(row, headingOf(one.field), one.says);
        auto wishes = planner_.plan(row, day_only_);
        for (const auto& [field, says] : wishes.missing)
            refuse(row, headingOf(fields_[size_t(field)].key), says);
        for (const auto& wish : wishes.wishes)
            if (const auto says = records_.disagreement(wish))
                refuse(row, headingOf(fields_[size_t(wish.field)].key), *says);
        if (row.state == ImportRow::State::Refused)
            return;
        for (const auto& wish : wishes.wishes)
            records_.grant(wish, row.line);
        for (const int record : wishes.records)
            records_.use(record);
    }

    // ---- After the rows

    void nameRows()
    {
        QSet<QString> taken;
        for (auto it = lines_.begin(); it != lines_.end(); ++it)
            taken.insert(it.key());
        QHash<QString, int> next;
        const int session = catalogue_.printField(u"session_code");
        const QString code_key = fields_[size_t(code_field_)].key;
        for (auto& row : out_.rows) {
            if (row.state != ImportRow::State::New)
                continue;
            if (row.code.isEmpty()) {
                QString stem = Words::tr("print");
                for (const auto& [field, known] : row.values)
                    if (field == session)
                        stem = known.text().value_or(stem);
                do
                    row.code = QStringLiteral("%1-%2").arg(stem).arg(++next[foldedName(stem)], 2, 10, QLatin1Char('0'));
                while (taken.contains(foldedName(row.code)) || known_.hasCode(row.code));
                taken.insert(foldedName(row.code));
                row.own.emplace_back(code_key, Known { row.code });
            }
            row.own.emplace_back(QStringLiteral("print_import_mark"), Known { row.mark });
        }
    }

    const DelimitedTable& table_;
    const Catalogue& catalogue_;
    const std::vector<Field>& fields_;
    const ImportOptions& options_;
    KnownPrints known_;
    LinkedRecords records_;
    ImportPlanner planner_;
    int code_field_;
    ImportPreview out_;

    std::vector<std::pair<int, Known>> every_row_;
    std::vector<DecimalMark> marks_; // one a column
    QHash<QString, qsizetype> lines_; // codes of the table
    QHash<QString, std::vector<qsizetype>> contents_; // lines by mark
    std::optional<QDate> day_; // of the row at hand
    bool day_only_ = false; // the session's start of the row at hand is only its day
};

} // namespace

ImportPreview previewImport(
    const DelimitedTable& table, const ImportMapping& mapping, const Notebook& notebook, const ImportOptions& options)
{
    return Previewing(table, mapping, notebook, options).run();
}

} // namespace washfast::exchange
