/** Longitude and latitude, degrees, WGS 84. */
export type Position = readonly [longitude: number, latitude: number];

/** A ring of positions, longitude first, as GeoJSON (RFC 7946 §3.1.1) has them: a height may follow. */
export type Ring = readonly (readonly number[])[];
