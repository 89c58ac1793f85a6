// An outlined print as it looks seen straight on, beside the photo. Made beside the window, again for every change.
#pragma once

#include "ui/common/theme.h"
#include "ui/reading/marked_photo.h"

#include <QFutureWatcher>
#include <QWidget>

namespace washfast::ui {

struct StraightSheet {
    std::shared_ptr<const density::Photo> photo;
    density::Corners corners {};
    QSizeF size_mm; // of the print; empty when not recorded: the outline's own proportions are taken
    QString name;
};

/// Width over height: of the recorded size, turned as the outline lies, else of the outline.
[[nodiscard]] double straightProportion(const StraightSheet& sheet);
/// The sheet in its own colours (sRGB); null when the corners span no area.
[[nodiscard]] QImage straightPicture(const StraightSheet& sheet, int longest);

class StraightView : public QWidget {
    Q_OBJECT

public:
    explicit StraightView(const Theme& theme, QWidget* parent = nullptr);
    ~StraightView() override;

    void setSheet(const std::optional<StraightSheet>& sheet); // nothing: says what to do
    void setTheme(const Theme& theme);
    [[nodiscard]] const QImage& picture() const { return picture_; }
    [[nodiscard]] bool working() const { return working_; }

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    void make();

    Theme theme_;
    std::optional<StraightSheet> sheet_;
    QImage picture_;
    bool working_ = false, again_ = false;
    QFutureWatcher<QImage> make_;
};

} // namespace washfast::ui
