#include "ui/prints/filter_line.h"

#include <QAbstractItemView>
#include <QCompleter>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QRegularExpression>
#include <QStringListModel>
#include <QToolButton>
#include <QVBoxLayout>

namespace washfast::ui {

namespace {

/// Start of the word that ends at the cursor.
qsizetype wordStart(const QString& text, qsizetype cursor)
{
    qsizetype at = cursor;
    while (at > 0 && (text[at - 1].isLetterOrNumber() || text[at - 1] == QLatin1Char('_')))
        --at;
    return at;
}

/// Completes the word at the cursor with a field's key and leaves the rest of the line alone.
class KeyCompleter : public QCompleter {
public:
    KeyCompleter(const Catalogue& catalogue, QLineEdit* line)
        : QCompleter(line)
        , line_(line)
    {
        QStringList keys;
        for (const auto& field : catalogue.printFields())
            keys << field.key;
        keys.sort();
        setModel(new QStringListModel(keys, this));
        setCaseSensitivity(Qt::CaseInsensitive);
        setModelSorting(QCompleter::CaseInsensitivelySortedModel);
    }
    [[nodiscard]] QString pathFromIndex(const QModelIndex& index) const override
    {
        const auto text = line_->text();
        const auto cursor = qsizetype(line_->cursorPosition());
        return text.left(wordStart(text, cursor)) + index.data().toString() + text.mid(cursor);
    }
    [[nodiscard]] QStringList splitPath(const QString& path) const override
    {
        const auto cursor = qMin(qsizetype(line_->cursorPosition()), path.size());
        const auto start = wordStart(path, cursor);
        constexpr qsizetype enoughToGuess = 3;
        const auto word = path.mid(start, cursor - start);
        return { word.size() < enoughToGuess ? QStringLiteral("\x01") : word };
    }

private:
    QLineEdit* line_;
};

} // namespace

FilterLine::FilterLine(const Catalogue& catalogue, const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , catalogue_(catalogue)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(2);
    auto* row = new QHBoxLayout;
    column->addLayout(row);
    line_ = new QLineEdit(this);
    line_->setPlaceholderText(tr("Show only, for example: kept < 0.6 and mix_code = M3"));
    line_->setAccessibleName(tr("Filter of the table"));
    line_->setClearButtonEnabled(true);
    line_->setCompleter(new KeyCompleter(catalogue, line_));
    row->addWidget(line_, 1);
    auto* help = new QToolButton(this);
    help->setText(QStringLiteral("?"));
    help->setToolTip(tr("How to write a filter"));
    help->setAccessibleName(tr("How to write a filter"));
    row->addWidget(help);
    complaint_ = new QLabel(this);
    complaint_->setTextFormat(Qt::RichText);
    complaint_->setWordWrap(true);
    complaint_->hide();
    column->addWidget(complaint_);
    connect(line_, &QLineEdit::textChanged, this, &FilterLine::read);
    connect(help, &QToolButton::clicked, this, &FilterLine::helpWanted);
    setFocusProxy(line_);
    setTheme(theme);
}

void FilterLine::setText(const QString& text)
{
    line_->setText(text);
}

QString FilterLine::text() const
{
    return line_->text();
}

QString FilterLine::complaint() const
{
    return complaint_->isHidden() ? QString()
                                  : complaint_->text().remove(QRegularExpression(QStringLiteral("<[^>]*>")));
}

void FilterLine::setTheme(const Theme& theme)
{
    theme_ = theme;
    auto colours = complaint_->palette();
    colours.setColor(QPalette::WindowText, theme.rust);
    complaint_->setPalette(colours);
}

void FilterLine::read()
{
    const auto typed = line_->text();
    const auto parsed = parseFilter(typed, catalogue_);
    complaint_->setVisible(!parsed.ok());
    if (parsed.ok()) {
        Q_EMIT filterChanged(parsed.filter);
        return;
    }
    // The line once more with the place underlined, and why.
    const auto& fault = *parsed.fault;
    const auto wrong
        = fault.length > 0 ? typed.mid(fault.at, fault.length).toHtmlEscaped() : QStringLiteral("&nbsp;&nbsp;&nbsp;");
    complaint_->setText(QStringLiteral("✕ %1 &nbsp; %2<u><b>%3</b></u>%4")
                            .arg(fault.says.toHtmlEscaped(), typed.left(fault.at).toHtmlEscaped(), wrong,
                                typed.mid(fault.at + fault.length).toHtmlEscaped()));
}

} // namespace washfast::ui
