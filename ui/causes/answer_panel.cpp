#include "ui/causes/answer_panel.h"

#include <QLabel>
#include <QVBoxLayout>

namespace washfast::ui {

namespace {

QString links(const QStringList& codes, const Theme& theme)
{
    constexpr qsizetype most = 24;
    QStringList parts;
    for (const auto& code : codes.mid(0, most))
        parts
            << QStringLiteral("<a href=\"%1\" style=\"color:%2\">%1</a>").arg(code.toHtmlEscaped(), theme.blue.name());
    if (codes.size() > most)
        parts << AnswerPanel::tr("and %n more", nullptr, int(codes.size() - most));
    return parts.join(QStringLiteral(", "));
}

} // namespace

QStringList reasonsOf(const causes::Answer& answer)
{
    QStringList lines;
    for (const auto& one : answer.evidence_for)
        lines << QStringLiteral("+ ") + one;
    for (const auto& one : answer.evidence_against)
        lines << QStringLiteral("− ") + one;
    if (!answer.tones.says.isEmpty())
        lines << answer.tones.says;
    for (const auto& sign : answer.signs) {
        QStringList parts { AnswerPanel::tr("Published for \"%1\"").arg(sign.title) };
        const std::pair<QString, QString> seen[] = { { AnswerPanel::tr("before the rinse"), sign.before_rinse },
            { AnswerPanel::tr("in the rinse"), sign.in_rinse }, { AnswerPanel::tr("a day after"), sign.day_after } };
        for (const auto& [when, what] : seen)
            if (!what.isEmpty())
                parts << when + QStringLiteral(": ") + what;
        if (!sign.says.isEmpty())
            parts << sign.says;
        if (!sign.test.isEmpty())
            parts << AnswerPanel::tr("To tell it from others: %1").arg(sign.test);
        lines << parts.join(QStringLiteral("; "));
    }
    if (!answer.rival_would_show.isEmpty())
        lines << answer.rival_would_show;
    if (!answer.unit_says.isEmpty())
        lines << answer.unit_says;
    return lines;
}

AnswerPanel::AnswerPanel(const Theme& theme, QWidget* parent)
    : QFrame(parent)
    , theme_(theme)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(14, 10, 14, 10);
    const auto label = [&] {
        auto* made = new QLabel(this);
        made->setWordWrap(true);
        made->setTextInteractionFlags(Qt::TextBrowserInteraction);
        column->addWidget(made);
        return made;
    };
    heading_ = label();
    heading_->setFont(textFont(font(), TextSize::Title));
    why_ = label();
    changed_ = label();
    changed_->hide();
    prints_ = label();
    prints_->setTextFormat(Qt::RichText);
    more_ = label();
    warnings_ = label();
    connect(prints_, &QLabel::linkActivated, this, &AnswerPanel::printWanted);
    setAutoFillBackground(true);
    setTheme(theme);
}

void AnswerPanel::setTheme(const Theme& theme)
{
    theme_ = theme;
    auto colours = palette();
    colours.setColor(QPalette::Window, theme.sheet);
    setPalette(colours);
    show();
}

void AnswerPanel::setAnswer(const causes::Answer& answer)
{
    answer_ = answer;
    changed_->hide();
    show();
}

void AnswerPanel::setChanged(const QString& sentence)
{
    changed_->setText(QStringLiteral("↻ ") + sentence);
    changed_->setVisible(!sentence.isEmpty());
}

void AnswerPanel::setSentence(const QString& heading, const QString& sentence)
{
    answer_.reset();
    changed_->hide();
    heading_->setText(heading);
    why_->setText(sentence);
    prints_->hide();
    more_->hide();
    warnings_->hide();
}

QString AnswerPanel::heading() const
{
    return heading_->text();
}

QString AnswerPanel::sentences() const
{
    return why_->text();
}

void AnswerPanel::show()
{
    if (!answer_)
        return;
    switch (answer_->verdict) {
    case causes::Verdict::Cause:
        heading_->setText(QStringLiteral("● ") + tr("A cause"));
        break;
    case causes::Verdict::Tangle:
        heading_->setText(QStringLiteral("∞ ") + tr("A tangle: these moved together"));
        break;
    case causes::Verdict::NotEnough:
        heading_->setText(QStringLiteral("○ ") + tr("Not enough to say"));
        break;
    }
    why_->setText(answer_->why);
    QStringList prints;
    if (!answer_->prints_for.isEmpty())
        prints << tr("For it: %1").arg(links(answer_->prints_for, theme_));
    if (!answer_->prints_against.isEmpty())
        prints << tr("Against it: %1").arg(links(answer_->prints_against, theme_));
    prints_->setText(prints.join(QStringLiteral("<br>")));
    prints_->setVisible(!prints.isEmpty());
    more_->setText(reasonsOf(*answer_).join(QLatin1Char('\n')));
    more_->setVisible(!more_->text().isEmpty());
    QStringList notes;
    for (const auto& warning : answer_->warnings)
        notes << QStringLiteral("! ") + warning;
    warnings_->setText(notes.join(QLatin1Char('\n')));
    warnings_->setVisible(!notes.isEmpty());
    auto colours = warnings_->palette();
    colours.setColor(QPalette::WindowText, theme_.rust);
    warnings_->setPalette(colours);
}

} // namespace washfast::ui
