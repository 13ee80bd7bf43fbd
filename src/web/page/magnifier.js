/// A round glass that shows the photo under the finger, in the corner that the finger leaves free.
import { make } from './dom.js';

const sizePx = 132;
const enlarged = 3; // times the size on the screen

export function magnifier(stage) {
  const canvas = make('canvas', {
    class: 'glass',
    width: sizePx * 2,
    height: sizePx * 2,
    'aria-hidden': 'true',
    hidden: true,
  });
  stage.stage.append(canvas);
  const pen = canvas.getContext('2d');

  function cross(middle) {
    [
      ['#000', 5],
      ['#fff', 2],
    ].forEach(([colour, width]) => {
      pen.strokeStyle = colour;
      pen.lineWidth = width;
      pen.beginPath();
      [
        [-1, 0],
        [1, 0],
        [0, -1],
        [0, 1],
      ].forEach(([dx, dy]) => {
        pen.moveTo(middle + dx * 12, middle + dy * 12);
        pen.lineTo(middle + dx * 60, middle + dy * 60);
      });
      pen.stroke();
    });
  }

  return {
    /// Shows the surroundings of a point of the photo.
    show([x, y]) {
      const { place, view, image, room } = {
        place: stage.place,
        view: stage.view,
        image: stage.image,
        room: stage.room,
      };
      if (!place || !image.complete || !image.naturalWidth) return;
      const [sx, sy] = stage.screenOf([x, y]);
      const left = sx > room.width / 2;
      canvas.classList.toggle('glass-left', left);
      canvas.classList.toggle('glass-low', sy < room.height / 2 && Math.abs(sx - room.width / 2) < sizePx / 2);
      const scale = view.scale * enlarged * 2; // canvas pixels a photo pixel
      const middle = canvas.width / 2;
      pen.fillStyle = '#777';
      pen.fillRect(0, 0, canvas.width, canvas.height);
      pen.drawImage(
        image,
        middle + (place.left - x) * scale,
        middle + (place.top - y) * scale,
        place.width * scale,
        place.height * scale,
      );
      cross(middle);
      canvas.hidden = false;
    },
    hide() {
      canvas.hidden = true;
    },
  };
}
