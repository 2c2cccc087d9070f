import type { Groups } from './saved-entities.ts';

/** Entities that are given in a plane of their own (DXF Reference, "Object Coordinate Systems"). */
const IN_OWN_PLANE = new Set(['CIRCLE', 'ARC', 'LWPOLYLINE', 'POLYLINE', 'VERTEX', 'TEXT']);

const pairsOf = (groups: Groups): [number, number | string][] =>
  groups.flatMap((code, i) =>
    i % 2 === 0 ? [[Number(code), groups[i + 1] as number | string]] : [],
  );

const negative = (value: number | string): string => String(-Number(value));

/**
 * The same entity drawn from below, its z axis towards -z, and raised: in a plane of its own, x runs
 * the other way and what turned left turns right. An ellipse stays where it is, but its angles count
 * the other way round.
 */
export const onBack = (groups: Groups, height: number): Groups => {
  const pairs = pairsOf(groups);
  const type = String(pairs[0]?.[1]);
  const has = (code: number): boolean => pairs.some(([c]) => c === code);
  const value = (code: number): number => Number(pairs.find(([c]) => c === code)?.[1]);
  if (type === 'ELLIPSE')
    return [
      ...pairs.flatMap(([code, v]): Groups => {
        if (code === 41) return [41, (2 * Math.PI - value(42)).toFixed(9)];
        return code === 42 ? [42, (2 * Math.PI - value(41)).toFixed(9)] : [code, v];
      }),
      210,
      0,
      220,
      0,
      230,
      -1,
    ];
  if (!IN_OWN_PLANE.has(type) || (type === 'POLYLINE' && (value(70) & 8) !== 0)) return groups;
  const [head, ...rest] = pairs;
  let of = type;
  return [
    ...(head ?? []),
    ...rest.flatMap(([code, v]): Groups => {
      if (code === 0) of = String(v);
      if (code === 10 || (code === 42 && of !== 'TEXT')) return [code, negative(v)];
      if (code === 50 && has(51)) return [50, (180 - value(51)).toFixed(9)];
      if (code === 51) return [51, (180 - value(50)).toFixed(9)];
      return code === 70 && type === 'POLYLINE' ? [code, v, 210, 0, 220, 0, 230, -1] : [code, v];
    }),
    ...(type === 'POLYLINE'
      ? []
      : [type === 'LWPOLYLINE' ? 38 : 30, height, 210, 0, 220, 0, 230, -1]),
  ];
};

const CLASSES: Readonly<Record<string, string>> = {
  LINE: 'AcDbLine',
  CIRCLE: 'AcDbCircle',
  ARC: 'AcDbCircle',
  ELLIPSE: 'AcDbEllipse',
  SPLINE: 'AcDbSpline',
  LWPOLYLINE: 'AcDbPolyline',
  POLYLINE: 'AcDb2dPolyline',
  VERTEX: 'AcDbVertex',
  INSERT: 'AcDbBlockReference',
  TEXT: 'AcDbText',
};

/** Codes padded as old programs pad them. */
const padded = (code: number | string): string => String(code).padStart(3);

/**
 * A file with all that programs put round the figures: a handle, an owner, a colour, a line type and a
 * weight with each entity, classes, data of their own, comments, and codes in padded lines.
 */
export const dressed = (groups: Groups): Groups => {
  let handle = 0x2f;
  return pairsOf(groups).flatMap(([code, value]): Groups => {
    const cls = code === 0 ? CLASSES[String(value)] : undefined;
    if (cls === undefined) return [padded(code), value];
    handle += 1;
    return [
      ...(handle % 5 === 0 ? [padded(999), '10'] : []),
      padded(0),
      value,
      padded(5),
      handle.toString(16).toUpperCase(),
      padded(102),
      '{OWN_REACTORS',
      padded(330),
      '1F',
      padded(102),
      '}',
      padded(330),
      '1F',
      padded(100),
      'AcDbEntity',
      padded(62),
      256,
      padded(6),
      'ByLayer',
      padded(370),
      -1,
      padded(48),
      '1.0',
      padded(420),
      0,
      padded(100),
      cls,
      padded(1001),
      'OWN_DATA',
      padded(1010),
      '7.0',
      padded(1020),
      '7.0',
      padded(1040),
      '3.0',
    ];
  });
};
