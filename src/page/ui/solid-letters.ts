import { CanvasTexture, Sprite, SpriteMaterial, SRGBColorSpace, type Vector3 } from 'three';

/** Pixels of the square that a letter is drawn on. */
const SQUARE = 64;
/** Its share of the height of the picture. */
const SHARE = 0.055;

/** A letter that always faces whoever looks, in one size whatever the zoom. */
export const letterSprite = (letter: string, at: Vector3): Sprite => {
  const canvas = document.createElement('canvas');
  const wide = SQUARE * Math.max(1, 0.55 * letter.length + 0.3);
  canvas.width = wide;
  canvas.height = SQUARE;
  const pen = canvas.getContext('2d');
  if (pen !== null) {
    pen.fillStyle = '#ffffff';
    pen.strokeStyle = '#1d2427';
    pen.lineWidth = 4;
    pen.beginPath();
    pen.roundRect(3, 3, wide - 6, SQUARE - 6, 18);
    pen.fill();
    pen.stroke();
    pen.fillStyle = '#1d2427';
    pen.font = '600 40px system-ui, sans-serif';
    pen.textAlign = 'center';
    pen.textBaseline = 'middle';
    pen.fillText(letter, wide / 2, SQUARE / 2 + 2);
  }
  const map = new CanvasTexture(canvas);
  map.colorSpace = SRGBColorSpace;
  const sprite = new Sprite(new SpriteMaterial({ map, depthTest: false }));
  sprite.position.copy(at);
  sprite.renderOrder = 1;
  sprite.userData['wide'] = (SHARE * wide) / SQUARE;
  sprite.userData['high'] = SHARE;
  return sprite;
};
