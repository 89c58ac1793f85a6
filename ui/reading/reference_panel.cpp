#include "ui/reading/reference_panel.h"

#include "ui/common/controls.h"
#include "ui/reading/stored_cards.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFormLayout>
#include <QLabel>
#include <QLocale>
#include <QPushButton>

namespace washfast::ui {

namespace {

QDoubleSpinBox* densityBox(QWidget* parent, const QString& name)
{
    auto* box = new QDoubleSpinBox(parent);
    box->setRange(-0.05, 3);
    box->setDecimals(3);
    box->setSingleStep(0.01);
    box->setAccessibleName(name);
    return box;
}

QString about(const StoredCard& card, const Desk& desk)
{
    const QLocale locale;
    QStringList densities;
    for (const auto& patch : card.patches)
        densities << (patch ? locale.toString(((*patch)[0] + (*patch)[1] + (*patch)[2]) / 3, 'f', 2)
                            : QString(QChar(0x2013)));
    const auto& known = desk.catalogue().columnField(Entity::Card, u"card_known_by");
    auto text = ReferencePanel::tr("From the lightest: %1.").arg(densities.join(QStringLiteral("  ")));
    text += QLatin1Char('\n')
        + (card.known_by.isEmpty() ? ReferencePanel::tr("Nobody says how they are known: readings count as assumed.")
                                   : ReferencePanel::tr("Known by: %1.").arg(known.choiceLabel(card.known_by)));
    if (card.known() < 2)
        text += QLatin1Char('\n') + ReferencePanel::tr("It has fewer than two patches of known density.");
    return text;
}

} // namespace

ReferencePanel::ReferencePanel(const Desk& desk, QWidget* parent)
    : QWidget(parent)
    , desk_(desk)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    auto* against = new QFormLayout;
    column->addLayout(against);
    card_ = narrowBox(this, tr("What the photo is measured against"), 14);
    against->addRow(tr("&Against"), card_);
    two_ = new QWidget(this);
    auto* form = new QFormLayout(two_);
    form->setContentsMargins(0, 0, 0, 0);
    white_ = densityBox(two_, tr("Density of the white card"));
    grey_ = densityBox(two_, tr("Density of the grey card"));
    form->addRow(tr("&White card, density"), white_);
    form->addRow(tr("&Grey card, density"), grey_);
    measured_ = new QCheckBox(tr("&Measured, for these very cards"), two_);
    measured_->setToolTip(
        tr("Without this the two densities are an assumption, and so is whatever is read against them."));
    form->addRow(measured_);
    column->addWidget(two_);
    about_ = new QLabel(this);
    about_->setWordWrap(true);
    about_->setAccessibleName(tr("Densities of the card"));
    column->addWidget(about_);
    keep_ = new QPushButton(tr("&Keep as a card..."), this);
    keep_->setToolTip(tr("Keeps the densities of the marked patches for other photos."));
    keep_->setAutoDefault(false);
    column->addWidget(keep_);
    level_ = new QCheckBox(tr("Even out the &light by the paper"), this);
    correction_ = new QCheckBox(tr("&Show what was evened out"), this);
    column->addWidget(level_);
    column->addWidget(correction_);
    fillCards(0);
    showReferences({}, false);

    connect(card_, &QComboBox::activated, this, [this] {
        follow();
        Q_EMIT changed();
    });
    // Another number is another card until the person says so.
    for (auto* box : { white_, grey_ })
        connect(box, &QDoubleSpinBox::valueChanged, this, [this] {
            if (showing_)
                return;
            measured_->setChecked(false);
            Q_EMIT changed();
        });
    for (auto* box : { measured_, level_ })
        connect(box, &QCheckBox::toggled, this, [this] {
            if (!showing_)
                Q_EMIT changed();
        });
    connect(correction_, &QCheckBox::toggled, this, &ReferencePanel::correctionToggled);
    connect(keep_, &QPushButton::clicked, this, &ReferencePanel::keepCard);
}

void ReferencePanel::fillCards(qint64 also)
{
    const auto chosen = card_->currentData().toLongLong();
    card_->clear();
    card_->addItem(tr("a white and a grey card"), 0);
    for (const auto& card : cardsOf(desk_.notebook(), also))
        card_->addItem(card.name, card.id);
    card_->setCurrentIndex(std::max(0, card_->findData(chosen)));
}

void ReferencePanel::follow()
{
    const auto card = cardOf(desk_.notebook(), card_->currentData().toLongLong());
    two_->setVisible(!card);
    about_->setVisible(card.has_value());
    about_->setText(card ? about(*card, desk_) : QString());
}

void ReferencePanel::showReferences(const References& references, bool level)
{
    showing_ = true;
    fillCards(references.card);
    card_->setCurrentIndex(std::max(0, card_->findData(references.card)));
    white_->setValue(references.white);
    grey_->setValue(references.grey);
    measured_->setChecked(references.measured);
    level_->setChecked(level);
    follow();
    showing_ = false;
}

References ReferencePanel::references() const
{
    References out;
    out.white = white_->value();
    out.grey = grey_->value();
    out.measured = measured_->isChecked();
    const auto card = cardOf(desk_.notebook(), card_->currentData().toLongLong());
    return card ? against(*card, out) : out;
}

bool ReferencePanel::level() const
{
    return level_->isChecked();
}

void ReferencePanel::offerCorrection(bool there)
{
    correction_->setEnabled(there);
}

bool ReferencePanel::showsCorrection() const
{
    return correction_->isChecked();
}

void ReferencePanel::setNotWritable()
{
    keep_->hide();
}

} // namespace washfast::ui
