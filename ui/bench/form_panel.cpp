#include "ui/bench/form_panel.h"

#include "core/store/print_fields.h"
#include "ui/bench/station_cautions.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QToolButton>
#include <QVBoxLayout>

namespace washfast::ui {

FormPanel::FormPanel(Desk& desk, const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , desk_(desk)
    , heading_(new QLabel(this))
    , hint_(new QLabel(this))
    , close_(new QToolButton(this))
    , cautions_(new StationCautions(theme, this))
    , form_(new PrintForm(desk, theme, this))
{
    auto strong = font();
    strong.setWeight(QFont::DemiBold);
    heading_->setFont(strong);
    heading_->setTextFormat(Qt::PlainText);
    hint_->setWordWrap(true);
    hint_->setFont(textFont(font(), TextSize::Small));
    close_->setText(QStringLiteral("✕"));
    close_->setAccessibleName(tr("Close the form"));
    close_->setToolTip(tr("Close the form"));
    connect(close_, &QToolButton::clicked, this, &FormPanel::closed);

    auto* top = new QHBoxLayout;
    top->addWidget(heading_, 1);
    top->addWidget(close_);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(10, 2, 2, 2);
    column->setSpacing(4);
    column->addLayout(top);
    column->addWidget(hint_);
    column->addWidget(cautions_);
    column->addWidget(form_, 1);
    setTheme(theme);
}

void FormPanel::show(Station station, const QVector<qint64>& prints, const QString& whom)
{
    if (station != station_ || !built_) {
        form_->setPrints(prints);
        form_->setStation(station);
        station_ = station;
        built_ = true;
    }
    form_->setPrints(prints);
    heading_->setText(tr("%1, %2").arg(station == Station::About ? tr("The sheet") : stationLabel(station), whom));
    form_->setAccessibleName(heading_->text());
    hint_->setText(!desk_.writable() ? tr("It can be read here, not changed.")
            : prints.size() > 1      ? tr("What is entered goes to all of them.")
                                     : QString());
    hint_->setVisible(!hint_->text().isEmpty());
    cautions_->setCautions(cautionsAt(desk_.notebook(), station, prints, desk_.session()));
    QWidget::show();
}

void FormPanel::focusFirst()
{
    for (const auto* field : desk_.catalogue().recordable(station_))
        if (field->kind != Kind::Time && store::isWritablePrintField(desk_.catalogue(), *field)) {
            form_->focusField(field->key);
            return;
        }
    form_->focusField();
}

void FormPanel::setTheme(const Theme& theme)
{
    auto colours = palette();
    colours.setColor(QPalette::WindowText, theme.quiet);
    hint_->setPalette(colours);
    cautions_->setTheme(theme);
    form_->setTheme(theme);
}

void FormPanel::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape) {
        Q_EMIT left();
        return;
    }
    QWidget::keyPressEvent(event);
}

} // namespace washfast::ui
