/**
 * A picture that the core drew. It is text of our own making: figures and names in it are escaped
 * where it is written.
 */
export const Svg = ({
  picture,
  label,
  className = '',
}: {
  readonly picture: string;
  readonly label: string;
  readonly className?: string;
}) => (
  <div
    class={`paper ${className}`}
    role="img"
    aria-label={label}
    dangerouslySetInnerHTML={{ __html: picture }}
  />
);
