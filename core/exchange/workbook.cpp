#include "core/exchange/workbook.h"

#include "core/exchange/words.h"
#include "core/files/write_aside.h"

#include <QDir>
#include <QFile>
#include <QTemporaryDir>
#include <algorithm>
#include <cmath>
#include <map>
#include <type_traits>
#include <utility>
#include <xlsxwriter.h>

namespace washfast::exchange {

namespace {

constexpr int most_rows = LXW_ROW_MAX - 1,
              most_columns = LXW_COL_MAX; // ISO/IEC 29500 leaves it open; spreadsheets do not
constexpr qsizetype longest_text = 32767, longest_name = LXW_SHEETNAME_MAX;
constexpr lxw_color_t blue = 0x0f3d66;
constexpr double narrowest = 6, widest = 48; // of a column, in characters

const QString date_format = QStringLiteral("yyyy-mm-dd");
const QString time_format = QStringLiteral("hh:mm:ss");
const QString moment_format = QStringLiteral("yyyy-mm-dd hh:mm:ss");

/// UTF-8 without what XML 1.0 does not allow: NUL, which would end the text, and the two non-characters.
QByteArray cellText(QString text)
{
    for (QChar& c : text)
        if (c == QChar(0) || c == QChar(0xfffe) || c == QChar(0xffff))
            c = QChar(QChar::ReplacementCharacter);
    return text.toUtf8();
}

/// A name that begins with = would be taken for a range of cells.
QByteArray chartText(const QString& text)
{
    return cellText(text.startsWith(u'=') ? u' ' + text : text);
}

lxw_datetime clock(const QDate& date, const QTime& time)
{
    lxw_datetime out {};
    if (date.isValid()) {
        out.year = date.year();
        out.month = date.month();
        out.day = date.day();
    }
    if (time.isValid()) {
        out.hour = time.hour();
        out.min = time.minute();
        out.sec = time.second() + time.msec() / 1000.0;
    }
    return out;
}

/// Dates of a spreadsheet begin in 1900; its first two months are off by a day in one system or the other.
bool isSpreadsheetDate(const QDate& date)
{
    return date >= QDate(1900, 3, 1) && date.year() <= 9999;
}

/// Whether a file can grow to so many bytes. The library does not notice when the temporary files that it makes are cut
/// short, and would pack them as they are.
bool hasRoom(const QString& path, qint64 bytes)
{
    const QByteArray block(256 * 1024, '\0');
    QFile file(path);
    bool fits = file.open(QIODevice::WriteOnly);
    for (; fits && bytes > 0; bytes -= block.size())
        fits = file.write(block) == block.size();
    fits = fits && file.flush();
    file.remove();
    return fits;
}

} // namespace

QString numberFormat(int decimals)
{
    return decimals <= 0 ? QStringLiteral("0") : QStringLiteral("0.") + QString(std::min(decimals, 30), u'0');
}

QString sheetName(const QString& wanted, const QStringList& taken)
{
    QString name = wanted.simplified();
    for (QChar& c : name)
        if (QStringLiteral("[]:*?/\\").contains(c) || !c.isPrint())
            c = u' ';
    const auto tidy = [](QString text) {
        text = text.simplified();
        while (text.startsWith(u'\''))
            text = text.mid(1).trimmed();
        while (text.endsWith(u'\''))
            text = text.chopped(1).trimmed();
        return text;
    };
    const auto shortened = [&](QString text, qsizetype length) {
        if (text.size() > length && text[length - 1].isHighSurrogate())
            --length;
        return tidy(text.left(length));
    };
    name = tidy(name);
    if (name.isEmpty())
        name = Words::tr("Sheet");
    if (name.compare(QStringLiteral("History"), Qt::CaseInsensitive) == 0)
        name += u'_';
    name = shortened(name, longest_name);
    QString found = name;
    for (int n = 2; taken.contains(found, Qt::CaseInsensitive); ++n) {
        const QString tail = QStringLiteral(" (%1)").arg(n);
        found = shortened(name, longest_name - tail.size()) + tail;
    }
    return found;
}

// ---- State

struct Workbook::State {
    QTemporaryDir folder;
    QByteArray draft, folder_name; // paths, kept for the library, which holds pointers to them
    lxw_workbook* book = nullptr;
    std::vector<std::unique_ptr<Sheet>> sheets;
    std::map<std::pair<QString, bool>, lxw_format*> formats; // by number format and italics
    lxw_format* heading = nullptr;
    std::optional<Error> problem; // first one met while filling
    qint64 bytes = 64 * 1024; // at most, of all parts before they are packed

    ~State()
    {
        if (book)
            lxw_workbook_free(book);
    }
    lxw_format* format(const QString& number_format, bool italic)
    {
        if (number_format.isEmpty() && !italic)
            return nullptr;
        lxw_format*& made = formats[{ number_format, italic }];
        if (!made && (made = workbook_add_format(book)) != nullptr) {
            if (!number_format.isEmpty())
                format_set_num_format(made, number_format.toUtf8().constData());
            if (italic)
                format_set_italic(made);
        }
        return made;
    }
};

struct Sheet::State {
    Workbook::State* book = nullptr;
    lxw_worksheet* sheet = nullptr;
    QString name;
    std::vector<SheetColumn> columns;
    std::vector<qsizetype> longest; // characters in each column
    int rows = 0, cuts = 0;

    void write(lxw_row_t row, lxw_col_t column, const SheetCell& cell);
    void writeText(lxw_row_t row, lxw_col_t column, QString text, bool italic);
    void finish();
};

void Sheet::State::writeText(lxw_row_t row, lxw_col_t column, QString text, bool italic)
{
    if (text.isEmpty())
        return;
    if (text.size() > longest_text) {
        const bool pair = text[longest_text - 2].isHighSurrogate();
        text = text.left(longest_text - (pair ? 2 : 1)) + QChar(0x2026);
        ++cuts;
    }
    const QByteArray bytes = cellText(text);
    // At most six bytes of XML for one of text, and a cell around it.
    book->bytes += 6 * bytes.size() + 64;
    longest[column] = std::max(longest[column], std::min<qsizetype>(text.size(), 200));
    if (worksheet_write_string(sheet, row, column, bytes.constData(), book->format({}, italic)) != LXW_NO_ERROR
        && !book->problem)
        book->problem = Error { Trouble::Failed, Words::tr("A text cell could not be written."), name };
}

void Sheet::State::write(lxw_row_t row, lxw_col_t column, const SheetCell& cell)
{
    const auto moment = [&](const QDate& date, const QTime& time, const QString& shown) {
        lxw_datetime when = clock(date, time);
        worksheet_write_datetime(sheet, row, column, &when, book->format(shown, cell.italic));
        longest[column] = std::max(longest[column], shown.size());
    };
    book->bytes += 96;
    std::visit(
        [&](const auto& value) {
            using T = std::decay_t<decltype(value)>;
            if constexpr (std::is_same_v<T, double>) {
                const bool infinite = std::isinf(value);
                if (!std::isfinite(value))
                    return writeText(row, column,
                        !infinite       ? QStringLiteral("NaN")
                            : value > 0 ? QStringLiteral("INF")
                                        : QStringLiteral("-INF"),
                        cell.italic);
                worksheet_write_number(
                    sheet, row, column, value, book->format(columns[column].number_format, cell.italic));
                longest[column] = std::max<qsizetype>(longest[column], 8);
            } else if constexpr (std::is_same_v<T, bool>) {
                worksheet_write_boolean(sheet, row, column, value ? 1 : 0, book->format({}, cell.italic));
            } else if constexpr (std::is_same_v<T, QString>) {
                writeText(row, column, value, cell.italic);
            } else if constexpr (std::is_same_v<T, QDate>) {
                if (isSpreadsheetDate(value))
                    moment(value, {}, date_format);
                else
                    writeText(row, column, value.toString(Qt::ISODate), cell.italic);
            } else if constexpr (std::is_same_v<T, QTime>) {
                if (value.isValid())
                    moment({}, value, time_format);
            } else if constexpr (std::is_same_v<T, QDateTime>) {
                if (isSpreadsheetDate(value.date()))
                    moment(value.date(), value.time(), moment_format);
                else
                    writeText(row, column, value.toString(Qt::ISODateWithMs), cell.italic);
            }
        },
        cell.value);
}

/// Widths, frozen header and filter, when all rows are known.
void Sheet::State::finish()
{
    for (size_t i = 0; i < columns.size(); ++i) {
        const double content = double(longest[i]) + 3; // room for the filter's button
        const double width = columns[i].width.value_or(std::clamp(content, narrowest, widest));
        worksheet_set_column(sheet, lxw_col_t(i), lxw_col_t(i), width, nullptr);
    }
    worksheet_freeze_panes(sheet, 1, 0);
    if (!columns.empty())
        worksheet_autofilter(sheet, 0, 0, lxw_row_t(rows), lxw_col_t(columns.size() - 1));
}

// ---- Sheet

Sheet::Sheet(std::unique_ptr<State> state)
    : state_(std::move(state))
{
}

Sheet::~Sheet() = default;

const QString& Sheet::name() const
{
    return state_->name;
}

int Sheet::rows() const
{
    return state_->rows;
}

int Sheet::cuts() const
{
    return state_->cuts;
}

void Sheet::addRow(const std::vector<SheetCell>& cells)
{
    if (state_->rows >= most_rows || cells.size() > state_->columns.size()) {
        if (!state_->book->problem)
            state_->book->problem = Error { Trouble::BadInput,
                state_->rows >= most_rows ? Words::tr("A sheet cannot hold more than %1 rows.").arg(most_rows)
                                          : Words::tr("A row has more cells than the sheet has columns."),
                state_->name };
        return;
    }
    const auto row = lxw_row_t(++state_->rows);
    for (size_t i = 0; i < cells.size(); ++i)
        state_->write(row, lxw_col_t(i), cells[i]);
}

// ---- Workbook

Workbook::Workbook(const WorkbookProperties& properties)
    : state_(std::make_unique<State>())
{
    state_->draft = QFile::encodeName(state_->folder.filePath(QStringLiteral("draft.xlsx")));
    state_->folder_name = QFile::encodeName(state_->folder.path());
    // Everything stays in memory until it is written: charts need the cells that they show.
    lxw_workbook_options options {};
    options.constant_memory = LXW_FALSE;
    options.tmpdir = state_->folder_name.data();
    state_->book = workbook_new_opt(state_->draft.constData(), &options);
    QByteArray title = cellText(properties.title.left(255)), subject = cellText(properties.subject.left(255)),
               comments = cellText(properties.comments.left(255)),
               keywords = cellText(properties.keywords.join(u' ').left(255));
    lxw_doc_properties document {};
    document.title = title.data();
    document.subject = subject.data();
    document.comments = comments.data();
    document.keywords = keywords.data();
    if (properties.created)
        document.created = time_t(properties.created->toSecsSinceEpoch());
    if (!state_->book || workbook_set_properties(state_->book, &document) != LXW_NO_ERROR)
        state_->problem = Error { Trouble::Failed, Words::tr("The workbook could not be begun."), {} };
    if (state_->book && (state_->heading = workbook_add_format(state_->book)) != nullptr) {
        format_set_bold(state_->heading);
        format_set_bottom(state_->heading, LXW_BORDER_THIN);
        format_set_text_wrap(state_->heading);
        format_set_align(state_->heading, LXW_ALIGN_VERTICAL_TOP);
    }
}

Workbook::~Workbook() = default;

Sheet& Workbook::addSheet(const QString& name, std::vector<SheetColumn> columns)
{
    QStringList taken;
    for (const auto& sheet : state_->sheets)
        taken.push_back(sheet->name());
    auto state = std::make_unique<Sheet::State>();
    state->book = state_.get();
    state->name = sheetName(name, taken);
    if (columns.size() > size_t(most_columns)) {
        columns.resize(size_t(most_columns));
        state_->problem = Error { Trouble::BadInput,
            Words::tr("A sheet cannot hold more than %1 columns.").arg(most_columns), state->name };
    }
    state->columns = std::move(columns);
    state->longest.assign(state->columns.size(), 0);
    state->sheet = workbook_add_worksheet(state_->book, state->name.toUtf8().constData());
    if (!state->sheet && !state_->problem)
        state_->problem = Error { Trouble::Failed, Words::tr("The sheet could not be added."), state->name };
    for (size_t i = 0; i < state->columns.size(); ++i) {
        const QByteArray heading = cellText(state->columns[i].heading.left(longest_text));
        state->longest[i] = std::min<qsizetype>(state->columns[i].heading.size(), 24);
        state_->bytes += 6 * heading.size() + 64;
        worksheet_write_string(state->sheet, 0, lxw_col_t(i), heading.constData(), state_->heading);
    }
    state_->sheets.push_back(std::unique_ptr<Sheet>(new Sheet(std::move(state))));
    return *state_->sheets.back();
}

void Workbook::addScatter(Sheet& on, int row, int column, const ScatterChart& chart)
{
    lxw_chart* made = workbook_add_chart(state_->book, LXW_CHART_SCATTER);
    if (!made)
        return;
    for (const ScatterSeries& series : chart.series) {
        if (!series.sheet || series.sheet->rows() == 0)
            continue;
        const QByteArray sheet = series.sheet->name().toUtf8();
        const auto last = lxw_row_t(series.sheet->rows());
        lxw_chart_series* points = chart_add_series(made, nullptr, nullptr);
        chart_series_set_categories(
            points, sheet.constData(), 1, lxw_col_t(series.x_column), last, lxw_col_t(series.x_column));
        chart_series_set_values(
            points, sheet.constData(), 1, lxw_col_t(series.y_column), last, lxw_col_t(series.y_column));
        if (!series.label.isEmpty())
            chart_series_set_name(points, chartText(series.label).constData());
        chart_series_set_marker_type(points, LXW_CHART_MARKER_CIRCLE);
        chart_series_set_marker_size(points, 6);
        if (chart.series.size() == 1) {
            lxw_chart_fill fill {};
            fill.color = blue;
            lxw_chart_line line {};
            line.color = blue;
            chart_series_set_marker_fill(points, &fill);
            chart_series_set_marker_line(points, &line);
        }
        state_->bytes += 64 * 2 * qint64(last);
    }
    chart_title_set_name(made, chartText(chart.title).constData());
    chart_axis_set_name(made->x_axis, chartText(chart.x_title).constData());
    chart_axis_set_name(made->y_axis, chartText(chart.y_title).constData());
    if (chart.series.size() < 2)
        chart_legend_set_position(made, LXW_CHART_LEGEND_NONE);
    lxw_chart_options options {};
    options.x_scale = 1.5;
    options.y_scale = 1.5;
    if (worksheet_insert_chart_opt(on.state_->sheet, lxw_row_t(row), lxw_col_t(column), made, &options) != LXW_NO_ERROR
        && !state_->problem)
        state_->problem = Error { Trouble::Failed, Words::tr("The chart could not be added."), on.name() };
}

Result<QByteArray> Workbook::bytes()
{
    const QString draft = QFile::decodeName(state_->draft);
    if (state_->problem)
        return *state_->problem;
    if (!state_->book)
        return Error { Trouble::Failed, Words::tr("This workbook has already been saved."), {} };
    if (state_->sheets.empty())
        return Error { Trouble::BadInput, Words::tr("The workbook has no sheet."), {} };
    if (!hasRoom(state_->folder.filePath(QStringLiteral("room")), state_->bytes))
        return Error { Trouble::NoSpace,
            Words::tr("There is too little room for temporary files, so the workbook was not made."), {} };
    for (const auto& sheet : state_->sheets)
        sheet->state_->finish();
    const lxw_error written = workbook_close(std::exchange(state_->book, nullptr)); // frees it in any case
    if (written != LXW_NO_ERROR)
        return Error { Trouble::Failed,
            Words::tr("The workbook could not be put together in the folder for temporary files."), {} };
    QFile made(draft);
    if (!made.open(QIODevice::ReadOnly))
        return Error { Trouble::Failed, Words::tr("The workbook could not be read back."), {} };
    return made.readAll();
}

Outcome Workbook::save(const QString& path)
{
    const auto made = bytes();
    if (!made)
        return Error { made.error().code, made.error().says,
            made.error().where.isEmpty() ? QDir::toNativeSeparators(path) : made.error().where };
    return files::writeFiles({ { path, *made } }, files::Existing::Replace);
}

} // namespace washfast::exchange
