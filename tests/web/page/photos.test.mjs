// Which photos are sent together.
import assert from 'node:assert/strict';
import test from 'node:test';
import { withoutPhoto, withPhotos } from '../../../src/web/page/photo_list.js';

const photo = (name, size) => ({ name, size });
const limits = { photos: 3, upload_bytes: 100 };

test('photos are added behind the others', () => {
  const { photos, complaint } = withPhotos([photo('a', 10)], [photo('b', 20), photo('c', 30)], limits);
  assert.equal(complaint, null);
  assert.deepEqual(
    photos.map(({ name }) => name),
    ['a', 'b', 'c'],
  );
});

test('more than the server takes are left out as a whole, and it is said why', () => {
  const one = [photo('a', 60)];
  assert.deepEqual(withPhotos(one, [photo('b', 41)], limits), {
    photos: one,
    complaint: { key: 'heavy', size: 101, limit: 100 },
  });
  assert.deepEqual(withPhotos(one, [1, 2, 3].map((i) => photo(`${i}`, 1)), limits), {
    photos: one,
    complaint: { key: 'many', limit: 3 },
  });
  assert.equal(withPhotos(one, [photo('b', 40)], limits).complaint, null);
});

test('one photo is taken out again', () => {
  assert.deepEqual(withoutPhoto(['a', 'b', 'c'], 1), ['a', 'c']);
  assert.deepEqual(withoutPhoto(['a'], 0), []);
});
