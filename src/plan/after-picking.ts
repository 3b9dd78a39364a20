/** Days after the last of picking up to which a test still tells the maturity at harvest. Common practice. */
export const AFTER_PICKING_DAYS = 3;
